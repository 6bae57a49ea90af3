import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { formOpinion } from '../../src/opinion/form-opinion.js';
import type { Opinion } from '../../src/opinion/opinion.js';
import { readTrial } from '../../src/records/index.js';
import type { Trial } from '../../src/trial/index.js';
import { keptInRun } from './kept-in-run.js';

const datasets = join(import.meta.dirname, '../../datasets');

/** The trial folders that the package brings, by name. */
export const bundledTrials: readonly string[] = readdirSync(datasets, { withFileTypes: true })
  .filter((entry) => entry.isDirectory() && entry.name !== 'simulate')
  .map(({ name }) => name);

const trials = new Map<string, Promise<Trial>>();
const opinions = new Map<string, Promise<Opinion>>();

/** A bundled trial, read once by each worker; frozen, for all its tests share it. */
export function bundledTrial(name: string): Promise<Trial> {
  return kept(trials, name, async () => frozen(await readTrial(join(datasets, name))));
}

/** The opinion on a bundled trial, formed once in a run of the tests; frozen, for they share it. */
export function bundledOpinion(name: string): Promise<Opinion> {
  return kept(opinions, name, async () => {
    const trial = await bundledTrial(name);
    return frozen(keptInRun(`opinion-of-${name}`, () => formOpinion(trial)));
  });
}

function kept<Value>(shelf: Map<string, Promise<Value>>, name: string, make: () => Promise<Value>): Promise<Value> {
  const value = shelf.get(name) ?? make();
  shelf.set(name, value);
  return value;
}

function frozen<Value>(value: Value): Value {
  if (typeof value !== 'object' || value === null || Object.isFrozen(value) || ArrayBuffer.isView(value)) return value;
  Object.freeze(value);
  for (const each of value instanceof Map ? value.values() : Object.values(value)) frozen(each);
  return value;
}
