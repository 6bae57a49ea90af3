// Estimates the coverage of 95 % intervals of a ratio of drying rates and writes drying.json and drying.md beside this
// script. npm run coverage:drying: some minutes.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { adjustedMethods, countAdjustedCoverage } from './adjusted-trials.js';
import { type DryingFile, type DryingRun, dryingTable } from './drying-table.js';
import { countDryingCoverage, type DryingDesign } from './drying-trials.js';

const TRIALS = 1_000;
const folder = join(process.cwd(), 'tests', 'simulation');

const designs: readonly { readonly design: DryingDesign; readonly walls: number; readonly seed: number }[] = [
  { design: 'complete', walls: 24, seed: 20250301 },
  { design: 'complete', walls: 8, seed: 20250302 },
  { design: 'pairs', walls: 24, seed: 20250303 },
  { design: 'pairs', walls: 8, seed: 20250304 },
];

const runs = designs.map(({ design, walls, seed }): DryingRun => {
  process.stdout.write(`${design}, ${walls} walls: ${TRIALS} trials\n`);
  return { design, walls, seed, methods: countDryingCoverage(design, walls, TRIALS, seed) };
});
const adjustedRuns: readonly {
  readonly id: string;
  readonly design: DryingDesign;
  readonly walls: number;
  readonly seed: number;
}[] = [
  { id: 'rate-ratio-season', design: 'complete', walls: 24, seed: 20250311 },
  { id: 'rate-ratio-season', design: 'complete', walls: 8, seed: 20250312 },
  { id: 'rate-ratio-season', design: 'pairs', walls: 24, seed: 20250317 },
  { id: 'rate-ratio-season', design: 'pairs', walls: 8, seed: 20250318 },
  { id: 'season-adjusted', design: 'complete', walls: 24, seed: 20250313 },
  { id: 'season-adjusted', design: 'complete', walls: 8, seed: 20250314 },
  { id: 'season-adjusted', design: 'pairs', walls: 24, seed: 20250315 },
  { id: 'season-adjusted', design: 'pairs', walls: 8, seed: 20250316 },
];
const adjusted = adjustedRuns.flatMap(({ id, design, walls, seed }) => {
  process.stdout.write(`${id}, ${design}, ${walls} walls: ${TRIALS} trials\n`);
  return adjustedMethods
    .filter((method) => method.id === id)
    .map((method) => countAdjustedCoverage(method, design, walls, TRIALS, seed));
});
const file: DryingFile = { source: '`npm run coverage:drying`', runs, adjusted };
writeFileSync(join(folder, 'drying.json'), `${JSON.stringify(file, null, 1)}\n`);
writeFileSync(join(folder, 'drying.md'), dryingTable(file));
process.stdout.write(dryingTable(file));
