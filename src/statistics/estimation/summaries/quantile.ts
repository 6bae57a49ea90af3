import { quantile as quantileOf } from 'simple-statistics';
import { checkSample } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';

/**
 * A quantile of a sample: the value below which about the fraction p of it lies.
 *
 * Linear interpolation between the sorted values with the smallest at p = 0 and the largest at p = 1, so at position
 * (n - 1) p: definition 7 of Hyndman and Fan (1996), The American Statistician 50:361-365. At one half it is the median.
 *
 * @throws StatisticsError `too-few` for no values, `not-finite`, `out-of-range` unless 0 <= p <= 1
 * @example quantile([1, 2, 4, 8], 0.25) // 1.75
 */
export function quantile(values: readonly number[], p: number): number {
  checkSample('quantile', 'values', values, 1);
  if (!(p >= 0 && p <= 1)) {
    throw new StatisticsError('quantile', 'out-of-range', `needs a fraction between 0 and 1, got ${p}`);
  }
  return quantileOf(values as number[], p);
}
