import { type DateOrder, monthNames } from '../../trial/index.js';

/** What a column of dates is written in: nothing where all are YYYY-MM-DD or need no order. */
export type DateStyle =
  | { readonly kind: 'decided'; readonly order: DateOrder }
  | { readonly kind: 'ambiguous'; readonly example: string; readonly cells: number; readonly row: number }
  | { readonly kind: 'torn'; readonly dayFirst: DatedRow; readonly monthFirst: DatedRow };

interface DatedRow {
  readonly text: string;
  readonly row: number;
}

const slashed = /^(\d{1,2})([-/. ])(\d{1,2})\2(\d{4})(?:[ T]+(\d{1,2}):(\d{2})(?::(\d{2}))?)?$/;
const yearFirst = /^(\d{4})([-/.]?)(\d{1,2})\2(\d{1,2})(?:[ T]+(\d{1,2}):(\d{2})(?::(\d{2}))?)?$/;
const dayAndName = /^(\d{1,2})(?:st|nd|rd|th)?[\s.-]+([A-Za-z]{3,9})\.?,?[\s-]+(\d{4})$/;
const nameAndDay = /^([A-Za-z]{3,9})\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})$/;

/**
 * Whether the day or the month comes first in a column, from all its dates together: a number above 12 can only be a day, and with points
 * between them the day comes first wherever that style is used.
 *
 * @param stated what the plan says; it decides what the dates leave open.
 */
export function dateStyle(cells: Iterable<DatedRow>, stated: DateOrder | undefined): DateStyle | undefined {
  let dayFirst: DatedRow | undefined;
  let monthFirst: DatedRow | undefined;
  let open: DatedRow | undefined;
  let count = 0;
  for (const cell of cells) {
    const match = slashed.exec(cell.text);
    if (match === null) continue;
    const [, first, mark, second] = match;
    count++;
    if (Number(first) > 12 || mark === '.') dayFirst ??= cell;
    else if (Number(second) > 12) monthFirst ??= cell;
    else if (first !== second) open ??= cell;
  }
  if (dayFirst !== undefined && monthFirst !== undefined) return { kind: 'torn', dayFirst, monthFirst };
  if (dayFirst !== undefined) return { kind: 'decided', order: 'day-first' };
  if (monthFirst !== undefined) return { kind: 'decided', order: 'month-first' };
  if (open === undefined) return count === 0 ? undefined : { kind: 'decided', order: 'day-first' };
  if (stated !== undefined) return { kind: 'decided', order: stated };
  return { kind: 'ambiguous', example: open.text, cells: count, row: open.row };
}

/** Whether a text is a date whose order of day and month matters. */
export function needsDateOrder(text: string): boolean {
  return slashed.test(text);
}

/**
 * A date in another style as YYYY-MM-DD, with its time where it has one; nothing where it is no date, or its order is not known. Whether
 * the day exists is for others to say.
 *
 * @example isoOfWritten('14 Mar 2024', undefined) // '2024-03-14'
 */
export function isoOfWritten(text: string, order: DateOrder | undefined): string | undefined {
  const year = yearFirst.exec(text);
  if (year !== null) return iso(year[1], year[3], year[4], year.slice(5));
  const named = dayAndName.exec(text);
  if (named !== null) return iso(named[3], monthNumber(named[2]), named[1]);
  const american = nameAndDay.exec(text);
  if (american !== null) return iso(american[3], monthNumber(american[1]), american[2]);
  const match = slashed.exec(text);
  if (match === null || (order === undefined && match[1] !== match[3])) return undefined;
  const [month, day] = order === 'month-first' ? [match[1], match[3]] : [match[3], match[1]];
  return iso(match[4], month, day, match.slice(5));
}

function monthNumber(name = ''): string | undefined {
  const wanted = name.toLowerCase();
  const index = monthNames.findIndex((month) => month.toLowerCase().startsWith(wanted));
  return index === -1 ? undefined : String(index + 1);
}

function iso(
  year = '',
  month: string | undefined,
  day = '',
  time: readonly (string | undefined)[] = [],
): string | undefined {
  if (month === undefined) return undefined;
  const [hours, minutes, seconds] = time;
  const clock =
    hours === undefined ? '' : `T${hours.padStart(2, '0')}:${minutes}${seconds === undefined ? '' : `:${seconds}`}`;
  return `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}${clock}`;
}
