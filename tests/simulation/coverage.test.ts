import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { swept } from '../helpers/sweep.js';
import { countCoverage, FIRST_TRIALS } from './count-coverage.js';
import { type CoverageFile, coverageOf, coverageTable, isInBand, shownCoverage } from './coverage-table.js';
import { methods } from './methods.js';
import type { Allocation } from './simulated-trial.js';

const read = (name: string) => readFileSync(new URL(name, import.meta.url), 'utf8');
const file: CoverageFile = JSON.parse(read('coverage.json'));
const allocations = Object.keys(methods) as Allocation[];

describe('the committed coverage of 95 % intervals', () => {
  it('counts every method on 24 and on 8 walls, in at least 4,000 trials each', () => {
    for (const allocation of allocations) {
      for (const walls of [24, 8]) {
        const run = file.runs.find((one) => one.allocation === allocation && one.walls === walls);
        expect(run?.methods.map(({ id }) => id)).toEqual(methods[allocation].map(({ id }) => id));
        expect(Math.min(...run!.methods.map(({ trials }) => trials))).toBeGreaterThanOrEqual(4_000);
      }
    }
  });

  const again = swept(file.runs, ({ walls, allocation }) => walls === 8 && allocation === 'pairs');
  it.each(again.map((run) => [`${run.allocation}, ${run.walls} walls`, run] as const))(
    'begins as a run made now does: %s',
    (_what, { allocation, walls, seed, methods: committed }) => {
      const again = countCoverage(allocation, walls, FIRST_TRIALS, seed);
      expect(again.map(({ id, held }) => [id, held])).toEqual(
        committed.map(({ id, heldAtFirst }) => [id, heldAtFirst]),
      );
    },
    60_000,
  );

  it('has each honest method inside 93.5 to 96.5 %, or says why not', () => {
    for (const { methods: found } of file.runs) {
      for (const method of found.filter(({ naive }) => !naive)) {
        const coverage = coverageOf(method);
        const well = coverage !== undefined && isInBand(coverage) && method.intervals === method.trials;
        expect(well || method.remark !== undefined, `${method.label}: ${coverage}`).toBe(true);
      }
    }
  });

  // A remark alone must not excuse a method: just these have no interval, not in any trial; all others are in the band.
  it('lacks intervals only where four pairs allow none', () => {
    const outside = file.runs.flatMap(({ allocation, walls, methods: found }) =>
      found.flatMap((method) => {
        const coverage = coverageOf(method);
        const isWell = coverage !== undefined && isInBand(coverage) && method.intervals === method.trials;
        return method.naive || isWell ? [] : [`${allocation} ${walls} ${method.id}: ${shownCoverage(method)}`];
      }),
    );
    expect(outside.sort()).toEqual(['pairs 8 bootstrap-studentised: refused', 'pairs 8 randomisation: none possible']);
  });

  it('shows the naive methods failing', () => {
    const naive = file.runs.flatMap((run) => run.methods.filter((method) => method.naive));
    expect(naive.length).toBeGreaterThan(0);
    for (const method of naive) expect(coverageOf(method)).toBeLessThan(0.9);
  });

  it('stands in the table as in the numbers', () => {
    expect(read('coverage.md')).toBe(coverageTable(file));
  });
});
