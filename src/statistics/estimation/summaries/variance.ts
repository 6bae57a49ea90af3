import { checkSample } from '../../checked-input.js';
import { momentsOf } from './moments.js';

/**
 * The variance of a sample: the sum of squared deviations from the mean, divided by n - 1. In the square of the unit.
 *
 * It is the variance that `welch`, `paired`, `blocked` and all others use. Where values share most of their leading digits the
 * deviations are those of the decimals as written, not of the doubles nearest to them: 15 digits of reference data, where doubles
 * have 8. Deviations no larger than the rounding of the values count as none.
 *
 * @throws StatisticsError `too-few` for fewer than two values, `not-finite`, `out-of-range` for values beyond about 1e150
 * @example variance([1, 2, 6]) // 7
 */
export function variance(values: readonly number[]): number {
  checkSample('variance', 'values', values, 2);
  return momentsOf(values).variance;
}
