import { checkSample } from '../../checked-input.js';

/**
 * The least and the greatest value, of however many: spreading them into the arguments of `Math.min` overflows the stack.
 *
 * @throws StatisticsError `too-few` for no values, `not-finite`
 * @example extremes([3, 1, 2]) // { least: 1, greatest: 3 }
 */
export function extremes(values: readonly number[]): { readonly least: number; readonly greatest: number } {
  checkSample('extremes', 'values', values, 1);
  let [least, greatest] = [values[0]!, values[0]!];
  for (const value of values) {
    if (value < least) least = value;
    if (value > greatest) greatest = value;
  }
  return { least, greatest };
}
