import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  autocorrelation,
  compensatedSum,
  isStatisticsError,
  mean,
  median,
  quantile,
  standardDeviation,
  variance,
} from '../../../../src/statistics/index.js';

const reading = fc.integer({ min: -1000, max: 1000 });
const sample = fc.array(reading, { minLength: 2, maxLength: 30 });

describe('compensatedSum', () => {
  it('keeps what a plain sum loses', () => {
    expect(compensatedSum([1e16, 1, -1e16])).toBe(1);
    expect(compensatedSum(Array(10).fill(0.1))).toBe(1);
    expect(compensatedSum([])).toBe(0);
  });
});

describe('variance and standardDeviation', () => {
  it('do not change by a shift and scale with the square and the size of a factor', () => {
    fc.assert(
      fc.property(sample, reading, fc.integer({ min: -8, max: 8 }), (values, shift, factor) => {
        const moved = values.map((value) => factor * value + shift);
        expect(variance(moved)).toBeCloseTo(factor ** 2 * variance(values), 6);
        expect(standardDeviation(moved)).toBeCloseTo(Math.abs(factor) * standardDeviation(values), 7);
      }),
    );
  });

  it('read decimals as they were written: a trillion in front of 0.1, 0.2, 0.3 changes nothing', () => {
    expect(standardDeviation([1e12 + 0.1, 1e12 + 0.2, 1e12 + 0.3])).toBeCloseTo(0.1, 15);
    expect(standardDeviation([1e-9 + 1e-15, 1e-9 + 2e-15, 1e-9 + 3e-15]) / 1e-15).toBeCloseTo(1, 12);
  });

  it('leave computed numbers as they are: thirds keep their sixteenth digit', () => {
    const thirds = [100 + 1 / 3, 100 + 1 / 3 + 2 ** -40, 100 + 1 / 3 - 2 ** -40];
    expect(standardDeviation(thirds)).toBe(2 ** -40);
  });

  it('are 0 for a constant sample', () => {
    expect(variance([0.1, 0.1, 0.1])).toBe(0);
  });
});

describe('quantile', () => {
  it('matches R quantile type 7, R 4.2.2: quantile(c(1, 2, 4, 8, 16.5), c(0.1, 0.25, 0.6, 0.95))', () => {
    const values = Object.freeze([8, 1, 16.5, 4, 2]);
    expect([0.1, 0.25, 0.6, 0.95].map((p) => quantile(values, p))).toEqual([1.4, 2, 5.6, 14.799999999999999]);
  });

  it('is the median at one half and the ends at 0 and 1, and never falls', () => {
    fc.assert(
      fc.property(
        sample,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (values, p, q) => {
          expect(quantile(values, 0.5)).toBe(median(values));
          expect(quantile(values, 0)).toBe(Math.min(...values));
          expect(quantile(values, 1)).toBe(Math.max(...values));
          expect(quantile(values, Math.max(p, q))).toBeGreaterThanOrEqual(quantile(values, Math.min(p, q)));
        },
      ),
    );
  });
});

describe('autocorrelation', () => {
  it('is 1/4 for 1, 2, 3, 4 (by hand: products 0.75 - 0.25 + 0.75 over squares 5)', () => {
    expect(autocorrelation([1, 2, 3, 4])).toBe(0.25);
  });

  it('lies within -1 and 1 and does not change by shift and scale, nor backwards', () => {
    fc.assert(
      fc.property(sample, reading, (values, shift) => {
        if (values.every((value) => value === values[0])) return;
        const found = autocorrelation(values);
        expect(Math.abs(found)).toBeLessThanOrEqual(1);
        expect(autocorrelation(values.map((value) => 3 * value + shift))).toBeCloseTo(found, 9);
        expect(autocorrelation(values.toReversed())).toBeCloseTo(found, 9);
      }),
    );
  });
});

describe('bad samples', () => {
  it.each<[string, () => unknown, string]>([
    ['mean([])', () => mean([]), 'too-few'],
    ['median([])', () => median([]), 'too-few'],
    ['variance([1])', () => variance([1]), 'too-few'],
    ['standardDeviation([1])', () => standardDeviation([1]), 'too-few'],
    ['quantile([1, NaN], 0.5)', () => quantile([1, Number.NaN], 0.5), 'not-finite'],
    ['quantile([1, 2], 1.5)', () => quantile([1, 2], 1.5), 'out-of-range'],
    ['autocorrelation([2, 2, 2])', () => autocorrelation([2, 2, 2]), 'no-variation'],
    ['mean([Infinity])', () => mean([Number.POSITIVE_INFINITY]), 'not-finite'],
  ])('%s is refused', (_title, action, fault) => {
    expect(faultOf(action)).toBe(fault);
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
