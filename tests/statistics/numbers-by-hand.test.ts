import { describe, expect, it } from 'vitest';
import {
  censoredMeans,
  hodgesLehmannPaired,
  isStatisticsError,
  limitsOfRepeated,
  normal,
  studentisedRange,
  studentT,
} from '../../src/statistics/index.js';

describe('numbers worked by hand', () => {
  it('of 500 pairs the signed-rank interval leaves μ − 1.96 σ means below it, by counting them', () => {
    const n = 500;
    const differences = Array.from({ length: n }, (_, at) => Math.sqrt(2 + at) + ((at * 37) % 101) / 1000);
    const { interval } = hodgesLehmannPaired(differences);
    if (interval === undefined) throw new Error('no interval');
    let below = 0;
    for (const [at, one] of differences.entries())
      for (let other = at; other < n; other++) if ((one + (differences[other] as number)) / 2 < interval.lower) below++;
    const expected = (n * (n + 1)) / 4 - normal().upperQuantile(0.025) * Math.sqrt((n * (n + 1) * (2 * n + 1)) / 24);
    expect(Math.abs(below - expected)).toBeLessThanOrEqual(1.5);
  });

  it('one of three values below its limit is a third', () => {
    const values = [
      { kind: 'measured', value: 1.2 },
      { kind: 'measured', value: 2.1 },
      { kind: 'below', limit: 0.6 },
    ] as const;
    expect(censoredMeans(values).fractionBelow).toBe(1 / 3);
  });

  it('limits of agreement from repeated readings take three things', () => {
    const thing = (value: number) => ({ x: [value, value + 0.2, value - 0.1], y: [value + 0.1, value + 0.4, value] });
    const things = [thing(4), thing(6.1), thing(7.3)];
    expect(limitsOfRepeated({ kind: 'varying', things }).n).toBeGreaterThan(0);
    let fault = 'none';
    try {
      limitsOfRepeated({ kind: 'varying', things: things.slice(0, 2) });
    } catch (error) {
      if (!isStatisticsError(error)) throw error;
      fault = error.fault;
    }
    expect(fault).toBe('too-few');
  });

  it('the range of two is √2 times Student’s t, both tails', () => {
    const range = studentisedRange(2, 7);
    for (const q of [0.3, 1, 3.5, 9]) {
      const tails = 2 * studentT(7).upperTail(q / Math.SQRT2);
      expect(range.upperTail(q)).toBeCloseTo(tails, 12);
      expect(range.lowerTail(q)).toBeCloseTo(1 - tails, 12);
    }
  });
});
