import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { formOpinion } from '../../src/opinion/form-opinion.js';
import type { Opinion } from '../../src/opinion/opinion.js';
import { readTrial } from '../../src/records/index.js';

const datasets = join(import.meta.dirname, '../../datasets');

/** The trial folders that the package brings, by name. */
export const bundledTrials: readonly string[] = readdirSync(datasets, { withFileTypes: true })
  .filter((entry) => entry.isDirectory() && entry.name !== 'simulate')
  .map(({ name }) => name);

export async function bundledOpinion(name: string): Promise<Opinion> {
  return formOpinion(await readTrial(join(datasets, name)));
}
