import { formatNumber } from './format-number.js';

/** Decimals that leave about three significant digits, two of what is below one, and never more than four. */
function usualDecimals(value: number): number {
  if (value === 0) return 1;
  const power = Math.floor(Math.log10(Math.abs(value)));
  return Math.min(4, Math.max(0, (power < 0 ? 1 : 2) - power));
}

/**
 * A number in a sentence, with about three significant digits, two of what is below one, unless told how many decimals: what is
 * measured of walls is seldom known to a hundredth of itself.
 *
 * @example numberInWords(-2.5983) // '−2.60'
 */
export function numberInWords(value: number, decimals: number = usualDecimals(value)): string {
  return formatNumber(value, decimals);
}

/**
 * A number with its unit: `2.60 % by mass`, `12.0 mV`.
 *
 * @example quantityInWords(2.5983, '% by mass') // '2.60 % by mass'
 */
export function quantityInWords(value: number, unit: string, decimals: number = usualDecimals(value)): string {
  return `${numberInWords(value, decimals)} ${unit}`.trimEnd();
}

/**
 * A difference with its unit: a difference of percentages is in percentage points.
 *
 * @example differenceInWords(1.2, '% by mass') // '1.20 percentage points'
 */
export function differenceInWords(value: number, unit: string, decimals: number = usualDecimals(value)): string {
  if (!isPercentage(unit)) return quantityInWords(value, unit, decimals);
  const isOne = numberInWords(Math.abs(value), decimals) === '1';
  return quantityInWords(value, isOne ? 'percentage point' : 'percentage points', decimals);
}

/**
 * How many decimals a number was written with.
 *
 * @example decimalsWritten(2.25) // 2
 */
export function decimalsWritten(value: number): number {
  return Math.min(10, `${value}`.split('.')[1]?.length ?? 0);
}

function isPercentage(unit: string): boolean {
  return unit.trim().startsWith('%') || /^percent\b/i.test(unit.trim());
}

/**
 * A count with its noun: `1 wall`, `12 walls`.
 *
 * @example countInWords(1, 'wall') // '1 wall'
 */
export function countInWords(count: number, singular: string, plural = `${singular}s`): string {
  return `${formatNumber(count, 0)} ${count === 1 ? singular : plural}`;
}

/**
 * A share in whole percent, and never 0 % or 100 % for something that is neither none nor all.
 *
 * @example shareInWords(1, 1000) // 'under 1 %'
 */
export function shareInWords(part: number, whole: number): string {
  const percent = Math.round((100 * part) / whole);
  if (percent === 0 && part > 0) return 'under 1 %';
  if (percent === 100 && part < whole) return 'over 99 %';
  return `${percent} %`;
}

/**
 * Names in a sentence: `a`, `a and b`, `a, b and c`, and beyond `most` of them `a, b and 7 more`.
 *
 * @example listInWords(['a', 'b', 'c']) // 'a, b and c'
 */
export function listInWords(names: readonly string[], most = 6): string {
  if (names.length > most) return `${names.slice(0, most - 1).join(', ')} and ${names.length - most + 1} more`;
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

/**
 * Somebody else’s words in a sentence, shortened where they are long.
 *
 * @example quoteInWords('a coin') // '“a coin”'
 */
export function quoteInWords(text: string, most = 120): string {
  const plain = text.trim().replaceAll(/\s+/g, ' ');
  return `“${plain.length > most ? `${plain.slice(0, most - 1)}…` : plain}”`;
}
