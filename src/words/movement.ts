import { decimalsFor } from './format-number.js';
import { differenceInWords, numberInWords } from './quantity.js';

/** The limits of an interval; `level` in 0 to 1. */
interface Interval {
  readonly level: number;
  readonly lower: number;
  readonly upper: number;
}

/**
 * A change in words: a change of a percentage is in percentage points, so that nobody takes it for a relative one.
 *
 * @example movementInWords(-2.6, '% by mass') // 'fell by 2.60 percentage points'
 */
export function movementInWords(change: number, unit: string, decimals?: number): string {
  return `${change <= 0 ? 'fell' : 'rose'} by ${differenceInWords(Math.abs(change), unit, decimals)}`;
}

/**
 * An interval of a change in words: `95 % interval 1.80 to 3.40` for a fall on both ends, else `from a fall of … to a rise of …`.
 *
 * @example intervalInWords({ level: 0.95, lower: -3.4, upper: -1.8 }) // '95 % interval 1.80 to 3.40'
 */
export function intervalInWords(interval: Interval): string {
  const { level, lower, upper } = interval;
  const name = `${levelInWords(level)} interval`;
  const size = (limit: number) => numberInWords(Math.abs(limit), decimalsOf(interval));
  if (upper <= 0) return `${name} ${size(upper)} to ${size(lower)}`;
  if (lower >= 0) return `${name} ${size(lower)} to ${size(upper)}`;
  return `${name} from a fall of ${size(lower)} to a rise of ${size(upper)}`;
}

/** Decimals for an interval and its estimate: two significant digits of the half-width, for more would be noise. */
export function decimalsOf({ lower, upper }: Interval): number {
  return decimalsFor((upper - lower) / 2);
}

/**
 * A confidence level as a percentage.
 *
 * @example levelInWords(0.95) // '95 %'
 */
export function levelInWords(level: number): string {
  return `${Number((100 * level).toPrecision(6))} %`;
}
