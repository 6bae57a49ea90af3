import { checkSample } from '../checked-input.js';
import { compensatedSum } from './compensated-sum.js';
import { deviations } from './deviations.js';

/**
 * The variance of a sample: the sum of squared deviations from the mean, divided by n - 1. In the square of the unit.
 *
 * @throws StatisticsError `too-few` for fewer than two values, `not-finite`
 * @example variance([1, 2, 6]) // 7
 */
export function variance(values: readonly number[]): number {
  checkSample('variance', 'values', values, 2);
  return compensatedSum(deviations(values).map((deviation) => deviation ** 2)) / (values.length - 1);
}
