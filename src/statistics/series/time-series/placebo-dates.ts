import { checkLevel } from '../../checked-input.js';
import type { Interval } from '../../interval.js';
import { StatisticsError } from '../../statistics-error.js';
import { averagedContrast } from './averaged-contrast.js';
import { stepDesign } from './change-design.js';

/** A change looked for where none was made. */
export interface PlaceboDate {
  /** Index of the first value counted as after. */
  readonly from: number;
  readonly estimate: number;
  readonly interval: Interval;
  /** Two-sided, of no change. */
  readonly pValue: number;
  /** The interval excludes no change. */
  readonly isAlarm: boolean;
}

export interface PlaceboOptions {
  /** Values on either side of a date that is tried; defaults to 4. */
  readonly fewest?: number;
  /** Where there are more dates than these, so many of them evenly spread; defaults to all. */
  readonly most?: number;
  /** Defaults to 0.95, which promises alarms at one date in twenty. */
  readonly level?: number;
}

/**
 * Every date inside a series without a change at which one could have been looked for, and what the same test says there.
 * Neighbouring dates share nearly all values, so that alarms come in runs, and of many dates one is likely to raise an alarm by chance
 * alone.
 *
 * @throws StatisticsError `too-few` where no date leaves enough values on both sides; what `averagedContrast` throws
 * @example placeboDates([5.1, 5.3, 5.0, 5.2, 5.1, 4.9, 5.2, 5.0], [0, 30, 60, 90, 120, 150, 180, 210]).length // 1
 */
export function placeboDates(
  values: readonly number[],
  times: readonly number[],
  options: PlaceboOptions = {},
): readonly PlaceboDate[] {
  const { fewest = 4, most = Number.POSITIVE_INFINITY, level = 0.95 } = options;
  checkLevel('placeboDates', level);
  const dates = values.length - 2 * fewest + 1;
  if (dates < 1) {
    const detail = `needs at least ${2 * fewest} values for ${fewest} on either side of a date, got ${values.length}`;
    throw new StatisticsError('placeboDates', 'too-few', detail);
  }
  const tried = Math.min(dates, most);
  return Array.from({ length: tried }, (_, at) => {
    const from = fewest + (tried < 2 ? 0 : Math.round((at * (dates - 1)) / (tried - 1)));
    const design = stepDesign(values.map((_value, index) => (index < from ? 0 : 1)));
    const { estimate, interval, pValue } = averagedContrast(
      { design, response: values, times },
      { step: 1 },
      { level },
    );
    return { from, estimate, interval, pValue, isAlarm: interval.lower > 0 || interval.upper < 0 };
  });
}
