import { checkSample } from '../checked-input.js';
import { StatisticsError } from '../statistics-error.js';

/**
 * The sum of finite numbers with the rounding of each addition carried along (Neumaier 1974, ZAMM 54:39–51).
 *
 * @throws StatisticsError `not-finite`, `out-of-range` where the sum is beyond the range of doubles
 * @example compensatedSum([1e16, 1, -1e16]) // 1
 */
export function compensatedSum(values: readonly number[]): number {
  let sum = 0;
  let lost = 0;
  for (const value of values) {
    const next = sum + value;
    lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
    sum = next;
  }
  const whole = sum + lost;
  if (Number.isFinite(whole)) return whole;
  checkSample('compensatedSum', 'values', values, 0);
  const detail = 'needs values whose sum doubles can hold; give them in another unit';
  throw new StatisticsError('compensatedSum', 'out-of-range', detail);
}
