import { checkSample } from '../../checked-input.js';
import { variance } from './variance.js';

/**
 * The standard deviation of a sample, divisor n − 1: the square root of the variance.
 *
 * @throws StatisticsError `too-few` for fewer than two values, `not-finite`
 * @example standardDeviation([1, 2, 6]) // 2.6457513110645907
 */
export function standardDeviation(values: readonly number[]): number {
  checkSample('standardDeviation', 'values', values, 2);
  return Math.sqrt(variance(values));
}
