import { checkSample } from '../checked-input.js';

/**
 * The middle value, or the mean of the two middle values.
 *
 * @throws StatisticsError `too-few` for no values, `not-finite`
 * @example median([1, 2, 9, 4]) // 3
 */
export function median(values: readonly number[]): number {
  checkSample('median', 'values', values, 1);
  const sorted = [...values].sort((one, other) => one - other);
  const middle = sorted.length >> 1;
  const upper = sorted[middle] as number;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] as number) + upper) / 2;
}
