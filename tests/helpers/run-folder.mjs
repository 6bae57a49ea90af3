import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { compileSources } from './compile-sources.mjs';

/**
 * Around a whole run of the tests: a folder in which its workers leave each other what is dear to make, with all TypeScript compiled
 * beside. Gone with the run.
 */
export default async function aroundTheRun() {
  const folder = mkdtempSync(join(tmpdir(), 'fairwall-run-'));
  process.env.FAIRWALL_RUN = folder;
  await compileSources();
  return () => rmSync(folder, { recursive: true, force: true });
}
