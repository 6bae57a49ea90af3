import { quickselect } from 'simple-statistics';
import { checkSample } from '../../checked-input.js';

/**
 * The middle value, or the mean of the two middle values.
 *
 * @throws StatisticsError `too-few` for no values, `not-finite`
 * @example median([1, 2, 9, 4]) // 3
 */
export function median(values: readonly number[]): number {
  checkSample('median', 'values', values, 1);
  const parted = [...values];
  const middle = parted.length >> 1;
  quickselect(parted, middle);
  const upper = parted[middle] as number;
  if (parted.length % 2 === 1) return upper;
  // Whatever stands left of the middle is no larger than it.
  let lower = Number.NEGATIVE_INFINITY;
  for (let at = 0; at < middle; at++) lower = Math.max(lower, parted[at] as number);
  return (lower + upper) / 2;
}
