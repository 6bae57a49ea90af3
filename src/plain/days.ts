import { lengthOfMonth } from './calendar.js';

/** The time from one midnight to the next: universal time has no leap seconds and no summer time. */
export const msInDay = 86_400_000;

const written = /^(\d{4})-(\d{2})-(\d{2})$/;

/**
 * The day, `YYYY-MM-DD`, of an ISO date with or without a time.
 *
 * @example isoDay('2024-03-12T08:30') // '2024-03-12'
 */
export function isoDay(date: string): string {
  return date.slice(0, 10);
}

/**
 * Whether a text is a day of the calendar, written `YYYY-MM-DD` and nothing behind it.
 *
 * @example isIsoDay('2023-02-29') // false
 */
export function isIsoDay(text: string): boolean {
  const [year = 0, month = 0, day = 0] = (written.exec(text) ?? []).slice(1).map(Number);
  return month >= 1 && month <= 12 && day >= 1 && day <= lengthOfMonth(year, month);
}

/**
 * Days since 1970-01-01 of an ISO date, whose time is left out.
 *
 * @throws RangeError for a text that does not begin with a day of the calendar
 * @example dayNumber('1970-02-01') // 31
 */
export function dayNumber(date: string): number {
  const day = isoDay(date);
  const known = numbers.get(day);
  if (known !== undefined) return known;
  if (!isIsoDay(day)) throw new RangeError(`needs a day such as 2024-03-12, got "${date}"`);
  const number = Date.parse(`${day}T00:00:00Z`) / msInDay;
  if (numbers.size >= mostKept) numbers.clear();
  numbers.set(day, number);
  return number;
}

/** A trial has few days, and each of them is asked for thousands of times. */
const numbers = new Map<string, number>();
const mostKept = 20_000;

/**
 * The ISO day in which a number of days since 1970-01-01 lies: a part of a day is left out.
 *
 * @throws RangeError for a number beyond all calendars
 * @example dayOfNumber(31.75) // '1970-02-01'
 */
export function dayOfNumber(number: number): string {
  return isoDay(new Date(number * msInDay).toISOString());
}

/**
 * Days from one ISO date to another, negative where the other came first; times are left out.
 *
 * @throws RangeError for a text that does not begin with a day of the calendar
 * @example daysBetween('2024-02-28', '2024-03-01') // 2
 */
export function daysBetween(from: string, to: string): number {
  return dayNumber(to) - dayNumber(from);
}

/**
 * The ISO day so many days later, or earlier for a negative number; a part of a day is left out.
 *
 * @throws RangeError for a text that does not begin with a day of the calendar
 * @example addDays('2024-02-28', 2) // '2024-03-01'
 */
export function addDays(date: string, days: number): string {
  return dayOfNumber(dayNumber(date) + days);
}

/** First and last day of a span, both of which belong to it. */
interface Span {
  readonly from: string;
  readonly to: string;
}

/**
 * The day in the middle of a span; of two the later.
 *
 * @throws RangeError for a text that does not begin with a day of the calendar
 * @example middleDay({ from: '2024-03-01', to: '2024-03-31' }) // '2024-03-16'
 */
export function middleDay({ from, to }: Span): string {
  return addDays(from, Math.round(daysBetween(from, to) / 2));
}

/**
 * Every ISO day of a span, in order; none where it ends before it begins.
 *
 * @throws RangeError for a text that does not begin with a day of the calendar
 * @example everyDay({ from: '2024-02-28', to: '2024-03-01' }) // ['2024-02-28', '2024-02-29', '2024-03-01']
 */
export function everyDay({ from, to }: Span): readonly string[] {
  const first = dayNumber(from);
  return Array.from({ length: Math.max(0, daysBetween(from, to) + 1) }, (_, at) => dayOfNumber(first + at));
}
