import type { Interval } from '../../statistics/index.js';
import { numberInWords, quantityInWords } from './quantity.js';

/**
 * A change in words: `fell by 2.60 % by mass`, `rose by 0.300 % by mass`.
 *
 * @example movementInWords(-2.6, '% by mass') // 'fell by 2.60 % by mass'
 */
export function movementInWords(change: number, unit: string): string {
  return `${change <= 0 ? 'fell' : 'rose'} by ${quantityInWords(Math.abs(change), unit)}`;
}

/**
 * An interval of a change in words: `3.40 to 1.80` for a fall on both ends, else `between a fall of … and a rise of …`.
 *
 * @param scale the estimate, which sets the digits
 * @example intervalInWords({ level: 0.95, lower: -3.4, upper: -1.8 }, -2.6) // '95 % interval 1.80 to 3.40'
 */
export function intervalInWords({ level, lower, upper }: Interval, scale: number): string {
  const name = `${levelInWords(level)} interval`;
  const size = (limit: number) => numberInWords(Math.abs(limit), scale);
  if (upper <= 0) return `${name} ${size(upper)} to ${size(lower)}`;
  if (lower >= 0) return `${name} ${size(lower)} to ${size(upper)}`;
  return `${name} from a fall of ${size(lower)} to a rise of ${size(upper)}`;
}

/**
 * A confidence level as a percentage.
 *
 * @example levelInWords(0.95) // '95 %'
 */
export function levelInWords(level: number): string {
  return `${Number((100 * level).toPrecision(6))} %`;
}
