import type { TableRow } from '../folder/table.js';
import type { CellReader } from './cell-reader.js';
import { type DateFault, dayFault, dayOrTimeFault } from './iso-date.js';
import { isoOfWritten, needsDateOrder } from './written-date.js';

/** A cell that must hold a day. */
function dayCell(cells: CellReader, row: TableRow, column: string): string {
  return dateCell(cells, row, column, dayFault);
}

/** A cell that must hold a day, or a day and a time. */
export function dayOrTimeCell(cells: CellReader, row: TableRow, column: string): string {
  return dateCell(cells, row, column, dayOrTimeFault);
}

/** A cell that holds a day or nothing. */
export function optionalDayCell(cells: CellReader, row: TableRow, column: string): string | undefined {
  return cells.text(row, column) === undefined ? undefined : dayCell(cells, row, column);
}

function dateCell(
  cells: CellReader,
  row: TableRow,
  column: string,
  faultOf: (text: string) => DateFault | undefined,
): string {
  const date = cells.needed(row, column, 'a date as YYYY-MM-DD, such as 2024-03-01');
  if (date === '') return date;
  const fault = faultOf(date);
  if (fault === undefined) return date;
  const order = cells.table.dateOrders.get(column);
  // Which of day and month comes first in the column could not be told, and that has been said.
  if (order === 'unknown' && needsDateOrder(date)) return '';
  const written = isoOfWritten(date, order === 'unknown' ? undefined : order);
  if (written !== undefined && faultOf(written) === undefined) {
    cells.mended(row, column, 'date', written);
    return written;
  }
  const meant = written === undefined ? fault : (faultOf(written) ?? fault);
  cells.refuse(row, column, meant.expected, meant.suggestion);
  return date;
}
