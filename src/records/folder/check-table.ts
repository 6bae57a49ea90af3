import type { Problem } from '../../trial/index.js';
import { decimalMark } from './decimal-mark.js';
import { findColumns } from './find-columns.js';
import type { Records } from './records.js';
import type { Table, TableRow } from './table.js';
import type { TableLayout } from './table-layouts.js';

/**
 * Finds the header and the rows of a table. Rows that are blank throughout are passed over without shifting the count.
 *
 * @returns nothing when there is no header at all.
 */
export function checkTable(records: Records, layout: TableLayout, problems: Problem[]): Table | undefined {
  const headerAt = records.rows.findIndex((cells) => !isBlank(cells));
  const header = records.rows[headerAt]?.map((cell) => cell.trim());
  if (header === undefined) {
    problems.push({ file: records.place, found: 'an empty table', expected: headerOf(layout) });
    return undefined;
  }
  const { columns, furtherColumns } = findColumns(records.place, headerAt + 1, header, layout, problems);
  const before = problems.length;
  const rows = rowsBelow(records, headerAt, header, problems);
  const refusedRows = problems.length - before;
  const decimal = decimalMark(numbersIn(rows, columns, layout), records.separator);
  return {
    place: records.place,
    columns,
    furtherColumns,
    rows,
    refusedRows,
    ...(records.separator === undefined ? {} : { separator: records.separator }),
    ...(decimal === undefined ? {} : { decimal }),
  };
}

/** What a table must begin with, in words. */
export function headerOf(layout: TableLayout): string {
  return `a header row with at least the columns ${layout.needed.join(', ')}`;
}

function rowsBelow(
  records: Records,
  headerAt: number,
  header: readonly string[],
  problems: Problem[],
): readonly TableRow[] {
  const rows: TableRow[] = [];
  const lastRow = records.rows.findLastIndex((cells) => !isBlank(cells));
  for (let index = headerAt + 1; index <= lastRow; index++) {
    const raw = records.rows[index] as readonly string[];
    if (isBlank(raw)) continue;
    const cells = trimmed(raw);
    const surplus = cells.findLastIndex((cell) => cell !== '') >= header.length;
    if (cells.length < header.length || surplus) {
      problems.push(wrongLength(records, index, cells.length, header.length, index === lastRow));
    } else {
      rows.push({ row: index + 1, cells });
    }
  }
  return rows;
}

function wrongLength(records: Records, index: number, found: number, expected: number, isLast: boolean): Problem {
  const cutOff = found < expected && isLast ? ' (the file may have been cut off)' : '';
  const quoting =
    found > expected && records.separator === 'comma' ? '; a comma inside a cell needs quotes around the cell' : '';
  return {
    file: records.place,
    row: index + 1,
    found: `${found} ${found === 1 ? 'cell' : 'cells'}${cutOff}`,
    expected: `${expected} cells as in the header${quoting}`,
  };
}

/** Mostly there is nothing to trim, and a large table need not be copied. */
function trimmed(cells: readonly string[]): readonly string[] {
  return cells.every((cell) => cell.trim().length === cell.length) ? cells : cells.map((cell) => cell.trim());
}

function isBlank(cells: readonly string[]): boolean {
  return cells.every((cell) => cell.trim() === '');
}

function* numbersIn(rows: readonly TableRow[], columns: ReadonlyMap<string, number>, layout: TableLayout) {
  const numeric = layout.numeric.flatMap((column) => columns.get(column) ?? []);
  for (const { cells } of rows) for (const column of numeric) yield cells[column] ?? '';
}
