import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hodgesLehmann, hodgesLehmannPaired, mannWhitney, signedRank } from '../../../../src/statistics/index.js';
import { expectRelative } from '../../../helpers/expect-relative.js';

interface Case {
  readonly test: 'mann-whitney' | 'signed-rank';
  readonly distribution: 'exact' | 'normal-approximation';
  readonly x: number[];
  readonly y?: number[];
  readonly statistic?: number;
  readonly pValue: number;
}

const file = join(import.meta.dirname, '../../../reference/rank-tests/rank-tests.json');
const { cases }: { cases: Case[] } = JSON.parse(readFileSync(file, 'utf8'));

describe('against R: coin where exact, wilcox.test by the normal curve', () => {
  it.each(cases.map((one, at) => [at, one.test, one.distribution, one] as const))('%d, %s, %s', (_, test, of, one) => {
    const found = test === 'mann-whitney' ? mannWhitney(one.x, one.y ?? []) : signedRank(one.x);
    expect(found.distribution).toBe(of);
    expectRelative(found.pValue, one.pValue, 1e-9, 'pValue');
    if (one.statistic !== undefined) expectRelative(found.statistic, one.statistic, 1e-12, 'statistic');
  });
});

const distinct = (fewest: number, most: number) =>
  fc.uniqueArray(fc.integer({ min: -500, max: 500 }), { minLength: fewest, maxLength: most });

describe('beside the interval of Hodges and Lehmann', () => {
  it('rejects a shift of zero where the interval of the p-value leaves it out', () => {
    fc.assert(
      fc.property(distinct(9, 16), (values) => {
        const [x, y] = [values.slice(0, values.length >> 1), values.slice(values.length >> 1)];
        const { interval } = hodgesLehmann(x, y, { inversion: 'p-value' });
        if (interval === undefined) return;
        const isOutside = interval.lower > 0 || interval.upper < 0;
        expect(mannWhitney(x, y).pValue <= 0.05 + 1e-12).toBe(isOutside);
      }),
    );
  });

  it('so does the signed-rank test', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 1, max: 900 }), { minLength: 6, maxLength: 12 }),
        fc.nat(),
        (sizes, signs) => {
          const differences = sizes.map((size, at) => ((signs >> at) & 1 ? size : -size));
          const { interval } = hodgesLehmannPaired(differences, { inversion: 'p-value' });
          if (interval === undefined) return;
          const isOutside = interval.lower > 0 || interval.upper < 0;
          expect(signedRank(differences).pValue <= 0.05 + 1e-12).toBe(isOutside);
        },
      ),
    );
  });
});

describe('what cannot be tested', () => {
  it('is refused by its fault', () => {
    expect(() => mannWhitney([], [1])).toThrow(expect.objectContaining({ fault: 'too-few' }));
    expect(() => mannWhitney([2, 2], [2])).toThrow(expect.objectContaining({ fault: 'no-variation' }));
    expect(() => mannWhitney([Number.NaN], [2])).toThrow(expect.objectContaining({ fault: 'not-finite' }));
    expect(() => signedRank([])).toThrow(expect.objectContaining({ fault: 'too-few' }));
    expect(() => signedRank([0, 0])).toThrow(expect.objectContaining({ fault: 'no-variation' }));
  });

  it('60 values are counted, 61 are not', () => {
    const values = (count: number) => Array.from({ length: count }, (_, at) => Math.sin(at + 1));
    expect(mannWhitney(values(60).slice(0, 25), values(60).slice(25)).distribution).toBe('exact');
    expect(mannWhitney(values(61).slice(0, 25), values(61).slice(25)).distribution).toBe('normal-approximation');
    expect([60, 61].map((count) => signedRank(values(count)).distribution)).toEqual(['exact', 'normal-approximation']);
  });
});
