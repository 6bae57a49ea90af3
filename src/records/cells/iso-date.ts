import { lengthOfMonth } from '../../plain/calendar.js';
import { monthNames } from '../../trial/index.js';
/** Why a text is no date, in the words that follow "expected", and the date that may have been meant. */
export interface DateFault {
  readonly expected: string;
  readonly suggestion?: string;
}

const day = /^\d{4}-\d{2}-\d{2}$/;
const dayOrTime =
  /^\d{4}-\d{2}-\d{2}(?:T(?:[01]\d|2[0-3]):[0-5]\d(?::[0-5]\d(?:\.\d+)?)?(?:Z|[+-](?:0\d|1[0-4]):[0-5]\d)?)?$/;

const expectedDay = 'a date as YYYY-MM-DD, such as 2024-03-01';
const expectedDayOrTime = `${expectedDay}, or with a time, such as 2024-03-01T08:30`;

/**
 * Checks an ISO 8601 calendar day, `YYYY-MM-DD`, from 1900 to 2199: earlier and later years are slips of the keyboard or
 * the zero of a spreadsheet's calendar.
 *
 * @returns nothing when the text is such a day.
 * @example dayFault('2024-02-30')?.expected // 'a day that exists: February 2024 has 29 days'
 */
export function dayFault(text: string): DateFault | undefined {
  return day.test(text) ? calendarFault(text) : otherStyle(text, expectedDay);
}

/** Checks `YYYY-MM-DD` or `YYYY-MM-DDThh:mm[:ss]`, the time with or without `Z` or an offset such as `+01:00`. */
export function dayOrTimeFault(text: string): DateFault | undefined {
  return dayOrTime.test(text) ? calendarFault(text) : otherStyle(text, expectedDayOrTime);
}

function calendarFault(iso: string): DateFault | undefined {
  const year = Number(iso.slice(0, 4));
  const month = Number(iso.slice(5, 7));
  const dayOfMonth = Number(iso.slice(8, 10));
  if (year < 1900 || year > 2199) return { expected: 'a year from 1900 to 2199' };
  if (month < 1 || month > 12) return { expected: 'a month from 01 to 12 (year, month, day)' };
  const days = lengthOfMonth(year, month);
  if (dayOfMonth >= 1 && dayOfMonth <= days) return undefined;
  return { expected: `a day that exists: ${monthNames[month - 1]} ${year} has ${days} days` };
}

/** Names the day that another style of writing stands for, where there is only one. */
function otherStyle(text: string, expected: string): DateFault {
  const suggestion = isoOf(text);
  return suggestion === undefined || dayOrTimeFault(suggestion) !== undefined ? { expected } : { expected, suggestion };
}

function isoOf(text: string): string | undefined {
  const blankBeforeTime = /^(\d{4}-\d{2}-\d{2}) (\d{2}:\d{2}.*)$/.exec(text);
  if (blankBeforeTime !== null) return `${blankBeforeTime[1]}T${blankBeforeTime[2]}`;
  const yearFirst = /^(\d{4})[-/.]?(\d{1,2})[-/.]?(\d{1,2})$/.exec(text);
  if (yearFirst !== null) return iso(yearFirst[1], yearFirst[2], yearFirst[3]);
  const yearLast = /^(\d{1,2})([-/.])(\d{1,2})\2(\d{4})$/.exec(text);
  if (yearLast === null) return undefined;
  const [, first, mark, second, year] = yearLast;
  // With points the day comes first wherever that style is used; with strokes only a number above 12 tells.
  if (mark === '.' || Number(first) > 12) return iso(year, second, first);
  return Number(second) > 12 ? iso(year, first, second) : undefined;
}

function iso(year = '', month = '', dayOfMonth = ''): string {
  return `${year}-${month.padStart(2, '0')}-${dayOfMonth.padStart(2, '0')}`;
}
