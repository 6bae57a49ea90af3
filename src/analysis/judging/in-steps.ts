/** More decimals than these were not read off an instrument but computed: our convention. */
const mostDecimals = 6;

/** Numbers as whole multiples of the smallest step with which all of them could have been written. */
export interface InSteps {
  /** In the unit of the numbers. */
  readonly step: number;
  readonly steps: readonly number[];
  /** Whether they have at most 6 decimals; otherwise they were computed and are rounded to these. */
  readonly isRead: boolean;
}

/**
 * The step is the largest of which every number is a multiple: 0.1 for 4.2 and 7.9, 0.05 for 4.25 and 7.90, 2 for 48 and 62. It stands
 * for the resolution of what was read, as seen.
 */
export function inSteps(values: readonly number[]): InSteps {
  let decimals = 0;
  for (const value of values) while (decimals <= mostDecimals && !hasDecimals(value, decimals)) decimals += 1;
  const isRead = decimals <= mostDecimals;
  const scale = 10 ** Math.min(decimals, mostDecimals);
  const whole = values.map((value) => Math.round(value * scale));
  let common = isRead ? 0 : 1;
  for (const value of whole) {
    if (common === 1) break;
    common = greatestCommonDivisor(common, Math.abs(value));
  }
  const divisor = common === 0 ? 1 : common;
  return { step: divisor / scale, steps: divisor === 1 ? whole : whole.map((value) => value / divisor), isRead };
}

/** Whether the number is the one that its rounding to so many decimals reads as. */
function hasDecimals(value: number, decimals: number): boolean {
  const scale = 10 ** decimals;
  return Math.round(value * scale) / scale === value;
}

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}
