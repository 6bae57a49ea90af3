import { StatisticsError } from '../statistics-error.js';

/** Size, mean and variance (divisor n - 1) of a sample. */
export interface Moments {
  readonly n: number;
  readonly mean: number;
  /** 0 for a single value. */
  readonly variance: number;
  /** Sum of squared deviations from the mean. */
  readonly squares: number;
}

/**
 * Moments of a sample in two passes, the second correcting the rounding of the first (Chan, Golub and LeVeque 1983).
 * Deviations no larger than the rounding of the values themselves count as none, so that equal values have variance 0.
 */
export function momentsOf(values: readonly number[]): Moments {
  const n = values.length;
  let sum = 0;
  let largest = 0;
  for (const value of values) {
    sum += value;
    largest = Math.max(largest, Math.abs(value));
  }
  const centre = sum / n;
  let drift = 0;
  let squares = 0;
  for (const value of values) {
    drift += value - centre;
    squares += (value - centre) ** 2;
  }
  if (!Number.isFinite(squares)) {
    throw new StatisticsError('momentsOf', 'out-of-range', 'needs values below about 1e150; give them in another unit');
  }
  const corrected = squares - drift ** 2 / n;
  const rounding = 8 * Number.EPSILON * largest;
  const kept = corrected > n * rounding ** 2 ? corrected : 0;
  return {
    n,
    mean: centre + drift / n,
    variance: n > 1 ? kept / (n - 1) : 0,
    squares: kept,
  };
}
