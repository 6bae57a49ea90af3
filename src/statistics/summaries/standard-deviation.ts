import { checkSample } from '../checked-input.js';
import { compensatedSum } from './compensated-sum.js';
import { mean } from './mean.js';

/**
 * The standard deviation of a sample, divisor n − 1, in two passes.
 *
 * @throws StatisticsError `too-few` for fewer than two values, `not-finite`
 * @example standardDeviation([1, 2, 6]) // 2.6457513110645907
 */
export function standardDeviation(values: readonly number[]): number {
  checkSample('standardDeviation', 'values', values, 2);
  const centre = mean(values);
  return Math.sqrt(compensatedSum(values.map((value) => (value - centre) ** 2)) / (values.length - 1));
}
