import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { swept } from '../helpers/sweep.js';
import { adjustedMethods, countAdjustedCoverage, firstAdjusted } from './adjusted-trials.js';
import { type DryingFile, dryingTable, isInBand } from './drying-table.js';
import { countDryingCoverage, dryingMethods, firstTrials } from './drying-trials.js';

const read = (name: string) => readFileSync(new URL(name, import.meta.url), 'utf8');
const file: DryingFile = JSON.parse(read('drying.json'));

describe('the committed coverage of intervals of a ratio of drying rates', () => {
  it('counts every method on 24 and on 8 walls, with and without pairs, in 1,000 trials each', () => {
    expect(file.runs.map(({ design, walls }) => `${design} ${walls}`)).toEqual([
      'complete 24',
      'complete 8',
      'pairs 24',
      'pairs 8',
    ]);
    for (const { methods } of file.runs) {
      expect(methods.map(({ id }) => id)).toEqual(dryingMethods.map(({ id }) => id));
      expect(methods.map(({ trials }) => trials)).toEqual(methods.map(() => 1_000));
    }
  });

  it('has every honest method inside 93.5 to 96.5 %, and the naive one far below', () => {
    for (const { methods } of file.runs) {
      for (const { naive, held, intervals, trials } of methods) {
        if (naive) expect(held / intervals).toBeLessThan(0.6);
        else expect([isInBand(held / intervals), intervals]).toEqual([true, trials]);
      }
    }
  });

  const again = swept(file.runs, ({ walls, design }) => walls === 8 && design === 'pairs');
  it.each(again.map((run) => [run.design, run] as const))(
    'begins as a run made now does: %s',
    (_design, { design, walls, seed, methods }) => {
      const again = countDryingCoverage(design, walls, firstTrials, seed);
      expect(again.map(({ held }) => held)).toEqual(methods.map(({ heldAtFirst }) => heldAtFirst));
    },
  );

  it('covers with a season in the readings as well, on 24 and on 8 walls, where the season is taken off', () => {
    const runs = file.adjusted.map(({ id, design, walls, trials }) => `${id} ${design} ${walls} ${trials}`);
    expect(runs).toEqual([
      'rate-ratio-season complete 24 1000',
      'rate-ratio-season complete 8 1000',
      'rate-ratio-season pairs 24 1000',
      'rate-ratio-season pairs 8 1000',
      'season-adjusted complete 24 1000',
      'season-adjusted complete 8 1000',
      'season-adjusted pairs 24 1000',
      'season-adjusted pairs 8 1000',
    ]);
    for (const { id, design, walls, held, intervals, trials } of file.adjusted) {
      // Four pairs hardly show what pairs share: longer than need be, which the table says.
      const isTooLong = id === 'rate-ratio-season' && design === 'pairs' && walls === 8;
      expect([isInBand(held / intervals), held / intervals > 0.965]).toEqual([!isTooLong, isTooLong]);
      expect(intervals).toBeGreaterThanOrEqual(0.999 * trials);
    }
    for (const { id, design, walls, seed, heldAtFirst } of swept(
      file.adjusted,
      (run) => run.walls === 8 && run.design === 'pairs',
    )) {
      const method = adjustedMethods.find((one) => one.id === id)!;
      expect(countAdjustedCoverage(method, design, walls, firstAdjusted, seed).held).toBe(heldAtFirst);
    }
  });

  it('stands in the table as in the numbers', () => {
    expect(read('drying.md')).toBe(dryingTable(file));
  });
});
