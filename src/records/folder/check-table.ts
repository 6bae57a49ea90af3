import { addTo, type Group } from '../../plain/group-by.js';
import { present } from '../../plain/present.js';
import type { DateOrder, NotUsed, Problem } from '../../trial/index.js';
import { quoted } from '../quoted.js';
import { decimalMark } from './decimal-mark.js';
import { findColumns, type HeadingNames } from './find-columns.js';
import { findHeader } from './find-header.js';
import { furtherColumnNotes } from './further-columns.js';
import { ordersOfDates } from './orders-of-dates.js';
import { isNoteRow, isTotalsRow } from './other-rows.js';
import type { ReadingNotes } from './reading-notes.js';
import type { Records } from './records.js';
import type { Table, TableRow } from './table.js';
import type { TableLayout } from './table-layouts.js';
import { isUnitOfColumn, isUnitsRow, unitOfColumn } from './units-of-columns.js';

/** What the plan says of a table, beyond its headings. */
export interface TableNames extends HeadingNames {
  readonly dateOrder?: DateOrder;
}

/**
 * Finds the header and the rows of a table. Rows that are blank throughout are passed over without shifting the count; so are titles above
 * the header, units below it, totals and remarks, which are taken down.
 *
 * @param table its name in the contract
 * @returns nothing when there is no header at all.
 */
export function checkTable(
  table: string,
  records: Records,
  layout: TableLayout,
  names: TableNames,
  notes: ReadingNotes,
  problems: Problem[],
): Table | undefined {
  const headerAt = findHeader(records.rows, layout, names);
  const header = records.rows[headerAt]?.map((cell) => cell.trim());
  if (header === undefined) {
    problems.push({ file: records.place, found: 'an empty table', expected: headerOf(layout) });
    return undefined;
  }
  const { columns, furtherColumns } = findColumns(records.place, headerAt + 1, header, layout, names, problems);
  const before = problems.length;
  const { rows, others } = rowsBelow(records, headerAt, header, columns, layout, problems);
  const refusedRows = problems.length - before;
  notes.notUsed.push(...rowsNotUsed(records, headerAt, others));
  const found = { header, headerRow: headerAt + 1, columns, furtherColumns, rows };
  notes.notUsed.push(...furtherColumnNotes(records.place, found, layout, names, problems));
  checkUnits(records, others, columns, problems);
  const decimal = decimalMark(numbersIn(rows, columns, layout), records.separator);
  const dateOrders = ordersOfDates(records, { columns, rows }, layout.dates, names.dateOrder, problems);
  notes.tables.push({
    file: records.place,
    table,
    headerRow: headerAt + 1,
    rows: rows.length,
    ...present({ decimal }),
    columns: [...columns].map(([as, index]) => {
      const unit = unitOfColumn(as);
      const order = dateOrders.get(as);
      return {
        heading: header[index] ?? '',
        as,
        ...present({ unit }),
        ...(order === undefined || order === 'unknown' ? {} : { dateOrder: order }),
      };
    }),
  });
  return {
    place: records.place,
    columns,
    furtherColumns,
    dateOrders,
    rows,
    refusedRows,
    mended: (cell) => notes.mended({ file: records.place, ...cell }),
    ...present({ separator: records.separator, decimal }),
  };
}

/** What a table must begin with, in words. */
export function headerOf(layout: TableLayout): string {
  return `a header row with at least the columns ${layout.needed.join(', ')}`;
}

type OtherRow = Extract<NotUsed, { kind: 'rows' }>['what'];

function rowsBelow(
  records: Records,
  headerAt: number,
  header: readonly string[],
  columns: ReadonlyMap<string, number>,
  layout: TableLayout,
  problems: Problem[],
): { readonly rows: readonly TableRow[]; readonly others: ReadonlyMap<OtherRow, readonly number[]> } {
  const rows: TableRow[] = [];
  const others = new Map<OtherRow, Group<number>>();
  const lastRow = records.rows.findLastIndex((cells) => !isBlank(cells));
  let isFirst = true;
  for (let index = headerAt + 1; index <= lastRow; index++) {
    const raw = records.rows[index] as readonly string[];
    if (isBlank(raw)) continue;
    const cells = trimmed(raw);
    const surplus = cells.findLastIndex((cell) => cell !== '') >= header.length;
    const other = otherRow(cells, header, columns, layout, isFirst);
    isFirst = false;
    if (other !== undefined) addTo(others, other, index + 1);
    else if (cells.length < header.length || surplus) {
      const lengths = { found: cells.length, expected: header.length };
      problems.push(wrongLength(records, { row: index + 1, ...lengths, isLast: index === lastRow }));
    } else {
      rows.push({ row: index + 1, cells });
    }
  }
  return { rows, others };
}

/** What a row is that is no record. */
function otherRow(
  cells: readonly string[],
  header: readonly string[],
  columns: ReadonlyMap<string, number>,
  layout: TableLayout,
  isFirst: boolean,
): OtherRow | undefined {
  if (isFirst && isUnitsRow(cells)) return 'units';
  if (cells[0] === header[0] && header.every((heading, index) => cells[index] === heading)) return 'header again';
  if (isTotalsRow(cells, columns, layout)) return 'totals';
  return isNoteRow(cells, layout) ? 'note' : undefined;
}

function rowsNotUsed(records: Records, headerAt: number, others: ReadonlyMap<OtherRow, readonly number[]>): NotUsed[] {
  const file = records.place;
  const above = records.rows.slice(0, headerAt).flatMap((cells, index) => (isBlank(cells) ? [] : [index + 1]));
  return [
    ...(above.length === 0 ? [] : [{ kind: 'rows', file, what: 'above the header', rows: above } as const]),
    ...[...others].map(([what, rows]) => ({ kind: 'rows', file, what, rows }) as const),
  ];
}

/** Below a column whose name holds its unit no other unit may stand. */
function checkUnits(
  records: Records,
  others: ReadonlyMap<OtherRow, readonly number[]>,
  columns: ReadonlyMap<string, number>,
  problems: Problem[],
): void {
  const row = others.get('units')?.[0];
  if (row === undefined) return;
  for (const [column, index] of columns) {
    const written = records.rows[row - 1]?.[index]?.trim() ?? '';
    const unit = unitOfColumn(column);
    if (unit === undefined || !/[\p{L}%]/u.test(written) || isUnitOfColumn(written, column)) continue;
    problems.push({ file: records.place, row, column, found: `the unit ${quoted(written)}`, expected: unit });
  }
}

interface RowLength {
  /** As a spreadsheet counts it. */
  readonly row: number;
  /** Cells. */
  readonly found: number;
  readonly expected: number;
  readonly isLast: boolean;
}

function wrongLength(records: Records, { row, found, expected, isLast }: RowLength): Problem {
  const cutOff = found < expected && isLast ? ' (the file may have been cut off)' : '';
  const quoting =
    found > expected && records.separator === 'comma' ? '; a comma inside a cell needs quotes around the cell' : '';
  return {
    file: records.place,
    row,
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
  // `12,3 %` has a decimal comma as well.
  for (const { cells } of rows)
    for (const column of numeric) yield (cells[column] ?? '').replace(/\s*[a-zA-Z%°]+$/, '');
}
