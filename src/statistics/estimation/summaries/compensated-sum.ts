import { sum } from 'simple-statistics';
import { checkSample } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';

/**
 * The sum of finite numbers with the rounding of each addition carried along (Neumaier 1974, ZAMM 54:39–51).
 *
 * @throws StatisticsError `not-finite`, `out-of-range` where the sum is beyond the range of doubles
 * @example compensatedSum([1e16, 1, -1e16]) // 1
 */
export function compensatedSum(values: readonly number[]): number {
  const whole = sum(values as number[]);
  if (Number.isFinite(whole)) return whole;
  checkSample('compensatedSum', 'values', values, 0);
  const detail = 'needs values whose sum doubles can hold; give them in another unit';
  throw new StatisticsError('compensatedSum', 'out-of-range', detail);
}
