import { median as medianOf } from 'simple-statistics';
import { checkSample } from '../checked-input.js';

/**
 * The middle value, or the mean of the two middle values.
 *
 * @throws StatisticsError `too-few` for no values, `not-finite`
 * @example median([1, 2, 9, 4]) // 3
 */
export function median(values: readonly number[]): number {
  checkSample('median', 'values', values, 1);
  return medianOf(values as number[]);
}
