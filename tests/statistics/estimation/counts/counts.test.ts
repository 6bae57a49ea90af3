import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  fisherExact,
  homogeneity,
  integerBelow,
  proportion,
  randomStream,
  riskDifference,
  scoresOfTreated,
  uniformity,
} from '../../../../src/statistics/index.js';
import { expectRelative } from '../../../helpers/expect-relative.js';

type Case =
  | {
      readonly test: 'fisher';
      readonly counts: number[];
      readonly pValue: number;
      readonly more: number;
      readonly fewer: number;
    }
  | ({ readonly test: 'uniformity'; readonly counts: number[] } & ChiSquare)
  | ({ readonly test: 'homogeneity'; readonly rows: number[][] } & ChiSquare);

interface ChiSquare {
  readonly statistic: number;
  readonly degreesOfFreedom: number;
  readonly pValue: number;
}

const file = join(import.meta.dirname, '../../../reference/counts/counts.json');
interface Share {
  readonly counts: [number, number];
  readonly wilson: [number, number];
  readonly exact: [number, number];
}

interface Difference {
  readonly counts: [number, number, number, number];
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
}

const { cases, shares, differences }: { cases: Case[]; shares: Share[]; differences: Difference[] } = JSON.parse(
  readFileSync(file, 'utf8'),
);

describe('against R', () => {
  it.each(cases.map((one) => [JSON.stringify('rows' in one ? one.rows : one.counts), one] as const))('%s', (_, one) => {
    // R keeps some 14 digits of its tails.
    if (one.test === 'fisher') {
      const [a = 0, b = 0, c = 0, d = 0] = one.counts;
      const found = fisherExact(table(a, b, c, d));
      for (const of of ['pValue', 'more', 'fewer'] as const) expectRelative(found[of], one[of], 1e-11, of);
      return;
    }
    const found = one.test === 'uniformity' ? uniformity(one.counts) : homogeneity(one.rows);
    for (const of of ['statistic', 'degreesOfFreedom', 'pValue'] as const)
      expectRelative(found[of], one[of], 1e-11, of);
  });
});

/** R leaves a limit of zero at some 1e-17. */
const expectLimit = (found: number, expected: number, of: string) =>
  Math.abs(expected) < 1e-12 ? expect(found, of).toBeCloseTo(0, 12) : expectRelative(found, expected, 1e-10, of);

describe('a share and a difference of shares, against R', () => {
  it.each(shares.map((one) => [one.counts.join(' of '), one] as const))(
    '%s',
    (_, { counts: [having, of], wilson, exact }) => {
      for (const [limits, expected] of [
        ['wilson', wilson],
        ['clopper-pearson', exact],
      ] as const) {
        const { interval } = proportion(having, of, { limits });
        expectLimit(interval.lower, expected[0], `${limits} lower`);
        expectLimit(interval.upper, expected[1], `${limits} upper`);
      }
    },
  );

  it.each(differences.map((one) => [one.counts.join(', '), one] as const))('%s', (_, one) => {
    const [a, b, c, d] = one.counts;
    const { estimate, interval } = riskDifference(table(a, b, c, d));
    expectLimit(estimate, one.estimate, 'estimate');
    expectLimit(interval.lower, one.lower, 'lower');
    expectLimit(interval.upper, one.upper, 'upper');
  });

  it('has the limits 0.0524 and 0.3339 that Newcombe 1998 gives for 56 of 70 against 48 of 80', () => {
    const { interval } = riskDifference(table(56, 14, 48, 32));
    expect(interval.lower).toBeCloseTo(0.0524, 4);
    expect(interval.upper).toBeCloseTo(0.3339, 4);
  });

  it('is refused without a unit, and for counts that are none', () => {
    expect(() => proportion(0, 0)).toThrow(expect.objectContaining({ fault: 'too-few' }));
    expect(() => proportion(3, 2)).toThrow(expect.objectContaining({ fault: 'out-of-range' }));
    expect(() => proportion(0.5, 2)).toThrow(expect.objectContaining({ fault: 'out-of-range' }));
    expect(() => riskDifference(table(1, 2, 0, 0))).toThrow(expect.objectContaining({ fault: 'too-few' }));
  });
});

const table = (a: number, b: number, c: number, d: number) => ({ x: { having: a, not: b }, y: { having: c, not: d } });

describe('fisherExact', () => {
  it('the tea of Fisher’s lady, by counting: 1 of 70 tables for all right, 17 of 70 for three or more', () => {
    expect(fisherExact(table(4, 0, 0, 4)).pValue).toBeCloseTo(2 / 70, 14);
    expect(fisherExact(table(3, 1, 1, 3)).more).toBeCloseTo(17 / 70, 14);
    expect(fisherExact(table(3, 1, 1, 3)).pValue).toBeCloseTo(34 / 70, 14);
  });

  it('agrees with binomial coefficients written out, sizes unequal', () => {
    const choose = (n: number, k: number): number => (k === 0 ? 1 : (choose(n - 1, k - 1) * n) / k);
    const chance = (k: number) => (choose(7, k) * choose(12, 6 - k)) / choose(19, 6);
    const chances = [0, 1, 2, 3, 4, 5, 6].map(chance);
    const { pValue, more, fewer } = fisherExact(table(5, 2, 1, 11));
    expect(more).toBeCloseTo(chance(5) + chance(6), 13);
    expect(fewer).toBeCloseTo(1 - chance(6), 13);
    expect(pValue).toBeCloseTo(
      chances.filter((one) => one <= chance(5) * (1 + 1e-9)).reduce((a, b) => a + b),
      13,
    );
  });

  it('is 1 where nobody has it, and keeps its digits for large counts', () => {
    expect(fisherExact(table(0, 5, 0, 9)).pValue).toBe(1);
    const { pValue } = fisherExact(table(900, 100, 100, 900));
    expect(pValue).toBeGreaterThan(0);
    expect(pValue).toBeLessThan(1e-200);
  });

  it('refuses an empty group and what is no count', () => {
    expect(() => fisherExact(table(0, 0, 1, 2))).toThrow('fisherExact needs at least 1 unit in each group');
    expect(() => fisherExact(table(1.5, 0, 1, 2))).toThrow('fisherExact needs counts of 0 or more, got 1.5, 0, 1, 2');
    expect(() => fisherExact(table(-1, 3, 1, 2))).toThrow('fisherExact needs counts');
  });
});

describe('uniformity and homogeneity', () => {
  it('uniformity: 36 against 50 each of 2 cells worked by hand, p of a normal square', () => {
    const { statistic, degreesOfFreedom, pValue } = uniformity([36, 64]);
    expect([statistic, degreesOfFreedom]).toEqual([7.84, 1]);
    // Two-sided normal tail at 2.8.
    expect(pValue).toBeCloseTo(0.00511026, 8);
  });

  it('homogeneity: 16/3 on 2 degrees of freedom by hand, whose tail is exp(-8/3)', () => {
    const result = homogeneity([
      [10, 20, 30],
      [20, 20, 20],
    ]);
    expect(result.statistic).toBeCloseTo(16 / 3, 13);
    expect(result.pValue).toBeCloseTo(Math.exp(-8 / 3), 13);
    expect(result.fewestExpected).toBe(15);
  });

  it('homogeneity passes over columns and rows without a count', () => {
    const full = homogeneity([
      [10, 0, 30],
      [20, 0, 20],
      [0, 0, 0],
    ]);
    expect(full).toEqual(
      homogeneity([
        [10, 30],
        [20, 20],
      ]),
    );
    expect(full.degreesOfFreedom).toBe(1);
  });

  it('refuse what cannot be compared', () => {
    expect(() => uniformity([5])).toThrow('uniformity needs 2 cells');
    expect(() => uniformity([0, 0])).toThrow('uniformity needs 2 cells');
    expect(() => uniformity([1, 0.5])).toThrow('uniformity needs counts of 0 or more, got 0.5');
    expect(() =>
      homogeneity([
        [1, 2],
        [0, 0],
      ]),
    ).toThrow('homogeneity needs counts in at least 2 rows');
    expect(() => homogeneity([[1, 2], [1]])).toThrow('homogeneity needs rows of the same length');
  });
});

describe('scoresOfTreated', () => {
  it('pairs: all six right is 1 of 64, five right 7 of 64', () => {
    const pair = (right: boolean) => ({ treated: [right ? 1 : -1], untreated: [right ? -1 : 1] });
    expect(scoresOfTreated(Array(6).fill(pair(true))).pValue).toBe(1 / 64);
    expect(scoresOfTreated([...Array(5).fill(pair(true)), pair(false)]).pValue).toBe(7 / 64);
  });

  it('agrees with every allocation counted one by one, unequal sizes', () => {
    const stream = randomStream(5);
    for (let round = 0; round < 20; round++) {
      const scores = Array.from({ length: 9 }, () => integerBelow(stream, 7) - 3);
      const sums: number[] = [];
      for (let set = 0; set < 512; set++) {
        const chosen = scores.filter((_, at) => (set >> at) & 1);
        if (chosen.length === 3) sums.push(chosen.reduce((a, b) => a + b, 0));
      }
      const { pValue, sum, smallestP } = scoresOfTreated([{ treated: scores.slice(0, 3), untreated: scores.slice(3) }]);
      expect(pValue).toBeCloseTo(sums.filter((one) => one >= sum).length / sums.length, 12);
      expect(smallestP).toBeCloseTo(sums.filter((one) => one === Math.max(...sums)).length / sums.length, 12);
    }
  });

  it('who says "treated" of every wall learns nothing, whatever the sizes', () => {
    expect(scoresOfTreated([{ treated: [1, 1, 1, 1, 1], untreated: [1, 1] }]).pValue).toBe(1);
  });

  it('refuses fractions and nothing', () => {
    expect(() => scoresOfTreated([])).toThrow('scoresOfTreated needs at least 1 unit');
    expect(() => scoresOfTreated([{ treated: [0.5], untreated: [] }])).toThrow('needs whole numbers as scores');
  });
});
