/**
 * The sum of finite numbers with the rounding of each addition carried along (Neumaier 1974, ZAMM 54:39–51).
 *
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
  return sum + lost;
}
