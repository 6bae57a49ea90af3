import { describe, expect, it } from 'vitest';
import { effectiveSampleSize, isStatisticsError } from '../../../../src/statistics/index.js';
import { expectRelative } from '../../../helpers/expect-relative.js';

/** The published sum, term by term: Bayley and Hammersley (1946). */
function bySum(count: number, correlation: number): number {
  let sum = 0;
  for (let lag = 1; lag < count; lag++) sum += (1 - lag / count) * correlation ** lag;
  return count / (1 + 2 * sum);
}

function faultOf(call: () => unknown) {
  try {
    call();
  } catch (error) {
    return isStatisticsError(error) ? error.fault : error;
  }
  return 'no fault';
}

describe('effectiveSampleSize', () => {
  it('effectiveSampleSize gives the published sum', () => {
    for (const count of [1, 2, 5, 12, 24, 200]) {
      for (const correlation of [-0.9, -0.4, 0, 0.4, 0.8, 0.99]) {
        expectRelative(effectiveSampleSize(count, correlation), bySum(count, correlation), 1e-12);
      }
    }
  });

  it('effectiveSampleSize of two values is 2 / (1 + r), and of a long series near n (1 - r) / (1 + r)', () => {
    expectRelative(effectiveSampleSize(2, 0.5), 4 / 3, 1e-15);
    expectRelative(effectiveSampleSize(100_000, 0.8), 100_000 / 9, 1e-4);
  });

  it('effectiveSampleSize refuses a count or a correlation out of range', () => {
    for (const count of [0, 1.5, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(faultOf(() => effectiveSampleSize(count, 0.4))).toBe('out-of-range');
    }
    for (const correlation of [-1, 1, Number.NaN]) {
      expect(faultOf(() => effectiveSampleSize(12, correlation))).toBe('out-of-range');
    }
  });
});
