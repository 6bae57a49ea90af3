// Estimates the coverage of 95 % intervals of a change between two windows of an autocorrelated series and writes
// paired-series.json and paired-series.md beside this script. npm run coverage:paired-series: some minutes.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type PairedSeriesFile, pairedSeriesTable } from './paired-series-table.js';
import { countSeries, type SeriesCell } from './paired-series-trials.js';

const TRIALS = 2_000;
const folder = join(process.cwd(), 'tests', 'simulation');

const usual = [8, 12, 24].flatMap((visits) =>
  [0, 0.4, 0.8].map(
    (correlation): SeriesCell => ({ visits, correlation, noise: 0, seed: 20250600 + visits + 100 * correlation }),
  ),
);
const harder: readonly SeriesCell[] = [
  { visits: 12, correlation: 0.9, noise: 0, seed: 20250701 },
  { visits: 24, correlation: 0.9, noise: 0, seed: 20250702 },
  { visits: 12, correlation: 0.8, noise: 0.5, seed: 20250703 },
  { visits: 24, correlation: 0.8, noise: 0.5, seed: 20250704 },
  { visits: 12, correlation: 0.8, noise: 1, seed: 20250705 },
  { visits: 24, correlation: 0.8, noise: 1, seed: 20250706 },
  { visits: 24, correlation: 0.9, noise: 0.5, seed: 20250707 },
];

/** What no interval allows for: a season that one wall shows more than the other, and walls that come apart by themselves. */
const systematic: readonly SeriesCell[] = [
  { visits: 12, correlation: 0.4, noise: 0, season: 1, seed: 20250801 },
  { visits: 24, correlation: 0.4, noise: 0, season: 1, seed: 20250802 },
  { visits: 12, correlation: 0.4, noise: 0, drift: 1, seed: 20250803 },
  { visits: 24, correlation: 0.4, noise: 0, drift: 1, seed: 20250804 },
];

const runs = [...usual, ...harder, ...systematic].map((cell) => {
  process.stdout.write(`${cell.visits} visits a window, autocorrelation ${cell.correlation}: ${TRIALS} trials\n`);
  return { cell, ...countSeries(cell, TRIALS) };
});
const file: PairedSeriesFile = { source: '`npm run coverage:paired-series`', runs };
writeFileSync(join(folder, 'paired-series.json'), `${JSON.stringify(file, null, 1)}\n`);
writeFileSync(join(folder, 'paired-series.md'), pairedSeriesTable(file));
process.stdout.write(pairedSeriesTable(file));
