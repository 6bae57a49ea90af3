import { StatisticsError } from '../../statistics-error.js';
import { compensatedSum } from './compensated-sum.js';
import { deviations } from './deviations.js';

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
 * Moments of a sample of at least one value: the one definition of the variance that every function here uses.
 *
 * Squared deviations from the mean over n − 1, the deviations those of the decimals as they were written where values share most of
 * their leading digits (`deviations`), which is how the certified values of reference data are meant; elsewhere those of the
 * doubles, which are then the same to rounding. Deviations no larger than the rounding of computed values count as none, so that
 * equal values have variance 0.
 */
export function momentsOf(values: readonly number[]): Moments {
  const n = values.length;
  const squares = compensatedSum(deviations(values).map((deviation) => checkedSquare(deviation)));
  const largest = values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const rounding = 8 * Number.EPSILON * largest;
  const kept = squares > n * rounding ** 2 ? squares : 0;
  return { n, mean: compensatedSum(values) / n, variance: n > 1 ? kept / (n - 1) : 0, squares: kept };
}

function checkedSquare(deviation: number): number {
  const square = deviation ** 2;
  if (Number.isFinite(square)) return square;
  throw new StatisticsError('momentsOf', 'out-of-range', 'needs values below about 1e150; give them in another unit');
}
