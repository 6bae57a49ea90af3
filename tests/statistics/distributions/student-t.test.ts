import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { normal } from '../../../src/statistics/distributions/normal.js';
import { studentT } from '../../../src/statistics/distributions/student-t.js';
import { isStatisticsError } from '../../../src/statistics/statistics-error.js';
import { relativeError } from './relative-error.js';

const degreesOfFreedom = fc.double({ min: 0.5, max: 1e9, noNaN: true });
const point = fc.double({ min: -50, max: 50, noNaN: true });

describe('studentT', () => {
  it('studentT(1) is the Cauchy distribution: density 1/(pi (1 + t^2)), quantile -cot(pi p)', () => {
    const cauchy = studentT(1);
    expect(relativeError(cauchy.density(2), 1 / (5 * Math.PI))).toBeLessThan(1e-14);
    expect(relativeError(cauchy.upperQuantile(1e-9), 1 / Math.tan(Math.PI * 1e-9))).toBeLessThan(1e-14);
    expect(relativeError(cauchy.upperTail(1e200), 1e-200 / Math.PI)).toBeLessThan(1e-12);
  });

  it('studentT(2) has the closed form 1/2 + t / (2 sqrt(2 + t^2))', () => {
    for (const t of [0.01, 0.3, 1, 1.48, 1.49, 7]) {
      expect(relativeError(studentT(2).lowerTail(t), 0.5 + t / (2 * Math.sqrt(2 + t * t)))).toBeLessThan(1e-14);
    }
  });

  it('studentT(df) tends to the normal distribution', () => {
    for (const t of [0.2, 1, 1.5, 4, 20, 37]) {
      expect(relativeError(studentT(1e18).upperTail(t), normal().upperTail(t))).toBeLessThan(1e-12);
    }
  });

  it('studentT(df).lowerTail + upperTail = 1, and the tails mirror each other', () => {
    fc.assert(
      fc.property(degreesOfFreedom, point, (df, t) => {
        const distribution = studentT(df);
        expect(Math.abs(distribution.lowerTail(t) + distribution.upperTail(t) - 1)).toBeLessThan(1e-15);
        expect(distribution.lowerTail(t)).toBe(distribution.upperTail(-t));
      }),
    );
  });

  it('studentT(df).upperQuantile inverts upperTail', () => {
    const atLeastOne = fc.double({ min: 1, max: 1e9, noNaN: true });
    fc.assert(
      fc.property(atLeastOne, fc.double({ min: -650, max: -1e-3, noNaN: true }), (df, logProbability) => {
        const probability = Math.exp(logProbability);
        const distribution = studentT(df);
        const back = distribution.upperTail(distribution.upperQuantile(probability));
        expect(relativeError(back, probability)).toBeLessThan(1e-12);
      }),
    );
  });

  it('studentT(df).upperTail falls as t grows', () => {
    fc.assert(
      fc.property(degreesOfFreedom, point, fc.double({ min: 1e-6, max: 1, noNaN: true }), (df, t, step) => {
        const distribution = studentT(df);
        expect(distribution.upperTail(t + step)).toBeLessThanOrEqual(distribution.upperTail(t));
      }),
    );
  });

  it('studentT(df).quantile is infinite at 0 and 1 and 0 at one half', () => {
    expect(studentT(3.37).quantile(0)).toBe(Number.NEGATIVE_INFINITY);
    expect(studentT(3.37).quantile(1)).toBe(Number.POSITIVE_INFINITY);
    expect(studentT(3.37).quantile(0.5)).toBe(0);
  });

  it('studentT refuses what it cannot answer', () => {
    expect(faultOf(() => studentT(0))).toBe('out-of-range');
    expect(faultOf(() => studentT(1e-320))).toBe('out-of-range');
    expect(studentT(1e-307).upperTail(1)).toBeCloseTo(0.5, 10);
    expect(faultOf(() => studentT(Number.POSITIVE_INFINITY))).toBe('not-finite');
    expect(faultOf(() => studentT(3).upperTail(Number.NaN))).toBe('not-finite');
    expect(faultOf(() => studentT(3).quantile(1.1))).toBe('out-of-range');
    expect(faultOf(() => studentT(3).upperQuantile(Number.NaN))).toBe('not-finite');
  });
});

function faultOf(action: () => unknown): string {
  try {
    action();
  } catch (error) {
    if (isStatisticsError(error)) return error.fault;
  }
  return 'nothing thrown';
}
