import type { DateOrder, Problem } from '../../trial/index.js';
import { dateStyle, needsDateOrder } from '../cells/written-date.js';
import { quoted } from '../quoted.js';
import type { Records } from './records.js';
import type { Table } from './table.js';

/** Which of day and month comes first in each column of dates; what cannot be told is a problem, once a column. */
export function ordersOfDates(
  records: Pick<Records, 'place' | 'separator'>,
  { columns, rows }: Pick<Table, 'columns' | 'rows'>,
  dates: readonly string[],
  stated: DateOrder | undefined,
  problems: Problem[],
): ReadonlyMap<string, DateOrder | 'unknown'> {
  const orders = new Map<string, DateOrder | 'unknown'>();
  for (const column of dates) {
    const index = columns.get(column);
    if (index === undefined) continue;
    const cells = rows.map(({ row, cells }) => ({ row, text: cells[index] ?? '' }));
    const style = dateStyle(cells, stated);
    if (style === undefined) continue;
    const at = { file: records.place, column };
    const remedy = 'YYYY-MM-DD, or the key dateOrder in the plan: day-first or month-first';
    if (style.kind === 'ambiguous') {
      const found = `${style.cells} ${style.cells === 1 ? 'date' : 'dates'} such as ${quoted(style.example)}, ${bothReadings(style.example)}`;
      problems.push({ ...at, row: style.row, found, expected: remedy });
      orders.set(column, 'unknown');
    } else if (style.kind === 'torn') {
      const { dayFirst, monthFirst } = style;
      const found = `${quoted(monthFirst.text)} with the month first, and in row ${dayFirst.row} ${quoted(dayFirst.text)} with the day first`;
      problems.push({ ...at, row: monthFirst.row, found, expected: 'one order in the whole column' });
      orders.set(column, 'unknown');
    } else if (records.separator === undefined && looksExchanged(cells, style.order)) {
      const found = 'dates as text that all have a day above 12 beside real dates that all have none';
      const expected =
        'all of them as real dates or all as text: a spreadsheet program may have exchanged day and month where it could';
      problems.push({ ...at, found, expected });
      orders.set(column, 'unknown');
    } else orders.set(column, style.order);
  }
  return orders;
}

/**
 * Typed with the day first into a program that expects the month first, dates up to the 12th become real dates of another day, and the
 * others stay text. Two of each are no accident (our convention).
 */
function looksExchanged(cells: readonly { readonly text: string }[], order: DateOrder): boolean {
  const texts = cells.flatMap(({ text }) => (needsDateOrder(text) ? [text.split(/[-/. ]/)] : []));
  const days = texts.map((parts) => Number(parts[order === 'day-first' ? 0 : 1]));
  const real = cells.flatMap(({ text }) => /^\d{4}-\d{2}-(\d{2})/.exec(text)?.[1] ?? []).map(Number);
  return days.length > 1 && real.length > 1 && days.every((day) => day > 12) && real.every((day) => day <= 12);
}

function bothReadings(text: string): string {
  const [first = '', second = '', year = ''] = text.split(/[-/. ]/);
  const iso = (month: string, day: string) => `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
  return `which is ${iso(second, first)} with the day first and ${iso(first, second)} with the month first`;
}
