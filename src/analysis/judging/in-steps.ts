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
  const decimals = values.reduce((most, value) => Math.max(most, decimalsOf(value)), 0);
  const isRead = decimals <= mostDecimals;
  const scale = 10 ** Math.min(decimals, mostDecimals);
  const whole = values.map((value) => Math.round(value * scale));
  const common = whole.reduce((divisor, value) => greatestCommonDivisor(divisor, Math.abs(value)), 0);
  const divisor = isRead && common > 0 ? common : 1;
  return { step: divisor / scale, steps: whole.map((value) => value / divisor), isRead };
}

function decimalsOf(value: number): number {
  const [mantissa = '', exponent = '0'] = `${value}`.split('e');
  return Math.max(0, (mantissa.split('.')[1] ?? '').length - Number(exponent));
}

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}
