import { quantile } from './quantile.js';

/**
 * From the first to the third quartile, as `quantile` has them: where the middle half of the values lies, whatever the rest do.
 *
 * @throws StatisticsError `too-few` for no values, `not-finite`
 * @example interquartileRange([1, 2, 4, 8, 100]) // 6
 */
export function interquartileRange(values: readonly number[]): number {
  return quantile(values, 0.75) - quantile(values, 0.25);
}
