// Estimates the coverage of 95 % intervals and writes coverage.json and coverage.md beside this script.
// npm run coverage: some minutes. With ids of methods after `--`, only theirs are counted again, in the same trials.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { countCoverage } from './count-coverage.js';
import { type CoverageFile, type CoverageRun, coverageTable } from './coverage-table.js';
import { methods } from './methods.js';
import type { Allocation } from './simulated-trial.js';

const TRIALS = 4_000;
const folder = join(process.cwd(), 'tests', 'simulation');

const designs: readonly { readonly allocation: Allocation; readonly walls: number; readonly seed: number }[] = [
  { allocation: 'complete', walls: 24, seed: 20240301 },
  { allocation: 'complete', walls: 8, seed: 20240302 },
  { allocation: 'pairs', walls: 24, seed: 20240303 },
  { allocation: 'pairs', walls: 8, seed: 20240304 },
  { allocation: 'blocks-of-four', walls: 24, seed: 20240305 },
  { allocation: 'blocks-of-four', walls: 8, seed: 20240306 },
];

const only = process.argv.slice(2);
const committed: CoverageFile = JSON.parse(readFileSync(join(folder, 'coverage.json'), 'utf8'));

const runs = designs.map(({ allocation, walls, seed }): CoverageRun => {
  process.stdout.write(`${allocation}, ${walls} walls: ${TRIALS} trials\n`);
  if (only.length === 0) return { allocation, walls, seed, methods: countCoverage(allocation, walls, TRIALS, seed) };
  const before = committed.runs.find((run) => run.allocation === allocation && run.walls === walls);
  if (before?.seed !== seed) throw new Error('The committed trials are others: run npm run coverage without ids.');
  const again = countCoverage(allocation, walls, TRIALS, seed, only);
  const counted = methods[allocation].map(({ id, label, remark }) => {
    const one = [...again, ...before.methods].find((counts) => counts.id === id);
    if (one === undefined) throw new Error(`${id} is new: give its id too.`);
    // Words may have changed since the trials were counted.
    const { remark: _, ...counts } = one;
    return { ...counts, label, ...(remark !== undefined && { remark }) };
  });
  return { allocation, walls, seed, methods: counted };
});
const file: CoverageFile = { source: '`npm run coverage`', runs };
writeFileSync(join(folder, 'coverage.json'), `${JSON.stringify(file, null, 1)}\n`);
writeFileSync(join(folder, 'coverage.md'), coverageTable(file));
process.stdout.write(readFileSync(join(folder, 'coverage.md'), 'utf8'));
