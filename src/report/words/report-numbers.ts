import type { Estimate } from '../../analysis/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import { isoDay } from '../../plain/days.js';
import type { Interval } from '../../statistics/interval.js';
import { monthNames } from '../../trial/index.js';
import { decimalsFor, formatPValue, formatSigned } from '../../words/format-number.js';

/** Decimals for every number in the outcome's unit: two significant digits of the primary interval's half-width. */
export function outcomeDecimals(opinion: Pick<Opinion, 'primary' | 'walls'>): number {
  const { primary } = opinion;
  const interval = primary.kind === 'estimated' ? primary.estimate.interval : undefined;
  if (interval !== undefined) return decimalsFor((interval.upper - interval.lower) / 2);
  const values = opinion.walls.flatMap((wall) => [wall.before ?? wall.after, wall.after]);
  // Without an interval the spread of the walls sets the digits.
  return values.length < 2 ? 2 : decimalsFor((Math.max(...values) - Math.min(...values)) / 4);
}

export function intervalText(interval: Interval | undefined, decimals: number): string {
  if (interval === undefined) return 'none';
  return `${formatSigned(interval.lower, decimals)} to ${formatSigned(interval.upper, decimals)}`;
}

export function pValueText({ pValue }: Pick<Estimate, 'pValue'>): string {
  return pValue === undefined ? 'none' : formatPValue(pValue);
}

/** @example dayText('2024-05-31') // '31 May 2024', with spaces that do not break */
export function dayText(written: string): string {
  const [year = '', month = '', day = ''] = isoDay(written).split('-');
  const name = monthNames[Number(month) - 1];
  return name === undefined ? written : `${Number(day)}\u00a0${name}\u00a0${year}`;
}
