import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const tests = join(import.meta.dirname, '..');

/** The test files that keep a sample of a long sweep, by their import of it: no list of them can fall behind. */
export function filesThatSweep(): string[] {
  const files = readdirSync(tests, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.test.ts'));
  return files
    .filter((file) => readFileSync(join(tests, file), 'utf8').includes("/helpers/sweep.js'"))
    .map((file) => `tests/${file}`);
}
