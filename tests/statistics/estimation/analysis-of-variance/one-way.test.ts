import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isStatisticsError, oneWayAnalysis, pooled } from '../../../../src/statistics/index.js';
import { logRelativeError } from '../../log-relative-error.js';

interface Answers {
  readonly betweenSum: number;
  readonly withinSum: number;
  readonly fStatistic: number;
  readonly rSquared: number;
  readonly residualStandardDeviation: number;
}

interface NistSet {
  readonly name: string;
  readonly difficulty: 'Lower' | 'Average' | 'Higher';
  readonly groups: number[][];
  readonly certified: Answers;
  readonly r: Answers;
}

const { cases }: { cases: NistSet[] } = JSON.parse(
  readFileSync(
    new URL('../../../reference/nist/analysis-of-variance/analysis-of-variance.json', import.meta.url),
    'utf8',
  ),
);

/**
 * Average and higher sets share 7 and 13 leading digits. Exact arithmetic on their doubles ends at 10 and 4 digits of
 * F; reading the doubles as the decimals they were written as keeps 13 everywhere.
 */
const required = 13;

describe('oneWayAnalysis against NIST (log relative error of F, ours / aov of R)', () => {
  it('has all eleven sets', () => {
    expect(cases.map(({ difficulty }) => difficulty).sort()).toEqual([
      ...Array(4).fill('Average'),
      ...Array(3).fill('Higher'),
      ...Array(4).fill('Lower'),
    ]);
  });

  for (const { name, difficulty, groups, certified, r } of cases) {
    const analysis = oneWayAnalysis(groups);
    const digits = logRelativeError(analysis.fStatistic, certified.fStatistic);
    const digitsOfR = logRelativeError(r.fStatistic, certified.fStatistic);
    it(`${name} (${difficulty}): ${digits.toFixed(1)} / ${digitsOfR.toFixed(1)}`, () => {
      expect(digits).toBeGreaterThanOrEqual(required);
      expect(digits).toBeGreaterThanOrEqual(digitsOfR - 0.05);
    });

    it(`${name}: sums of squares, R squared and residual deviation`, () => {
      const found: Answers = {
        betweenSum: analysis.between.sumOfSquares,
        withinSum: analysis.within.sumOfSquares,
        fStatistic: analysis.fStatistic,
        rSquared: analysis.rSquared,
        residualStandardDeviation: analysis.residualStandardDeviation,
      };
      for (const part of Object.keys(certified) as (keyof Answers)[]) {
        expect(logRelativeError(found[part], certified[part]), part).toBeGreaterThanOrEqual(required);
      }
    });
  }
});

describe('oneWayAnalysis', () => {
  const value = fc.integer({ min: -50, max: 50 });
  const groups = fc.array(fc.array(value, { minLength: 2, maxLength: 7 }), { minLength: 2, maxLength: 5 });

  it('does not change when all values are shifted, or multiplied', () => {
    fc.assert(
      fc.property(groups, (sample) => {
        if (sample.every((group) => group.every((one) => one === group[0]))) return;
        const analysis = oneWayAnalysis(sample);
        const moved = oneWayAnalysis(sample.map((group) => group.map((one) => 2 ** 30 - 4 * one)));
        expect(moved.pValue).toBeCloseTo(analysis.pValue, 10);
        expect(moved.within.sumOfSquares).toBeCloseTo(16 * analysis.within.sumOfSquares, 5);
      }),
    );
  });

  it('of two groups is the square of the pooled t test, unequal sizes included', () => {
    const one = [3.1, 4.7, 2.2, 5.9, 4.4];
    const other = [5.2, 6.3, 7.7];
    const { pValue, fStatistic } = oneWayAnalysis([one, other]);
    const t = pooled(one, other);
    expect(pValue).toBeCloseTo(t.pValue, 13);
    expect(fStatistic).toBeCloseTo((t.estimate / t.standardError) ** 2, 12);
  });

  it.each<[string, number[][], string]>([
    ['one group', [[1, 2]], 'too-few'],
    ['an empty group', [[1, 2], []], 'too-few'],
    ['one value in each group', [[1], [2]], 'too-few'],
    [
      'no scatter within groups',
      [
        [1, 1],
        [2, 2],
      ],
      'no-variation',
    ],
    [
      'a NaN',
      [
        [1, Number.NaN],
        [2, 3],
      ],
      'not-finite',
    ],
  ])('refuses %s', (_title, sample, fault) => {
    expect(faultOf(() => oneWayAnalysis(sample))).toBe(fault);
  });
});

function faultOf(action: () => unknown): string {
  try {
    action();
  } catch (error) {
    if (isStatisticsError(error)) return error.fault;
    throw error;
  }
  return 'nothing thrown';
}
