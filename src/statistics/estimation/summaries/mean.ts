import { checkSample } from '../../checked-input.js';
import { compensatedSum } from './compensated-sum.js';

/**
 * The arithmetic mean.
 *
 * @throws StatisticsError `too-few` for no values, `not-finite`
 * @example mean([1, 2, 6]) // 3
 */
export function mean(values: readonly number[]): number {
  checkSample('mean', 'values', values, 1);
  return compensatedSum(values) / values.length;
}
