import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { fewestSeriesVisits } from '../../src/analysis/index.js';
import { isInBand, type PairedSeriesFile, pairedSeriesTable } from './paired-series-table.js';
import { countSeries, firstTrials, seriesMethods } from './paired-series-trials.js';

const read = (name: string) => readFileSync(new URL(name, import.meta.url), 'utf8');
const file: PairedSeriesFile = JSON.parse(read('paired-series.json'));
const moves = ({ season, drift }: (typeof file.runs)[number]['cell']) => season !== undefined || drift !== undefined;
const plain = file.runs.filter(({ cell }) => cell.noise === 0 && !moves(cell));

describe('the committed coverage of intervals of a change in a series of two walls', () => {
  it('counts every method at autocorrelations of 0, 0.4 and 0.8 with 12 and 24 visits a window, in 2,000 series each', () => {
    const cells = file.runs.map(({ cell }) => `${cell.visits} ${cell.correlation}`);
    expect(cells).toEqual(expect.arrayContaining(['12 0', '12 0.4', '12 0.8', '24 0', '24 0.4', '24 0.8']));
    for (const { trials, methods } of file.runs) {
      expect(trials).toBe(2_000);
      expect(methods.map(({ id }) => id)).toEqual(seriesMethods.map(({ id }) => id));
    }
  });

  it('has averaging over the autocorrelation inside 93.5 to 96.5 % wherever the opinion relies on it, noise apart', () => {
    for (const { cell, trials, methods } of plain) {
      if (cell.visits < fewestSeriesVisits) continue;
      const { intervals, held } = methods[0]!;
      expect([isInBand(held / intervals), intervals], `${cell.visits}, ${cell.correlation}`).toEqual([true, trials]);
    }
  });

  it('has no method right where noise hides a strong autocorrelation, and independence far off at 0.8', () => {
    for (const { cell, methods } of file.runs) {
      const shares = methods.map(({ held, intervals }) => held / intervals);
      if (cell.noise > 0) expect(shares.some(isInBand)).toBe(false);
      // Noise as large as what lasts makes visits half as alike.
      if (cell.correlation >= 0.8) expect(shares.at(-1)).toBeLessThan(cell.noise < 1 ? 0.6 : 0.75);
    }
  });

  it('has the numbers that the weaknesses of a series give', () => {
    const percents = (shares: readonly number[]) =>
      [Math.min(...shares), Math.max(...shares)].map((share) => Math.round(100 * share));
    const noisy = file.runs.filter(({ cell }) => cell.noise > 0);
    expect(percents(noisy.map(({ methods }) => methods[0]!.held / methods[0]!.intervals))).toEqual([84, 92]);
    const checked = file.runs.filter(({ cell, checks }) => checks.series > 0 && !moves(cell));
    expect(checked.map(({ cell }) => cell.visits >= fewestSeriesVisits)).toEqual(checked.map(() => true));
    const alike = ({ cell }: (typeof checked)[number]) => cell.correlation > 0.4;
    for (const [name, few, most] of [
      ['plainAlarms', [2, 5], 15],
      ['drifting', [1, 3], 12],
    ] as const) {
      const shareOf = ({ checks }: (typeof checked)[number]) => checks[name] / checks.series;
      expect(percents(checked.filter((run) => !alike(run)).map(shareOf)), name).toEqual(few);
      expect(percents(checked.map(shareOf))[1], name).toBe(most);
    }
  });

  it('begins as a run made now does', () => {
    const run = file.runs.find(({ cell }) => cell.visits === 12 && cell.correlation === 0.4)!;
    const again = countSeries(run.cell, firstTrials);
    expect(again.methods.map(({ heldAtFirst }) => heldAtFirst)).toEqual(
      run.methods.map(({ heldAtFirst }) => heldAtFirst),
    );
  });

  it('stands in the table as in the numbers', () => {
    expect(read('paired-series.md')).toBe(pairedSeriesTable(file));
  });
});
