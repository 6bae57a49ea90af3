import type { Windows } from '../../trial/index.js';
import type { CellReader } from '../cells/cell-reader.js';
import { optionalDayCell } from '../cells/date-cell.js';
import { dayFault } from '../cells/iso-date.js';
import type { TableRow } from '../folder/table.js';

const columns = ['before_from', 'before_to', 'after_from', 'after_to'] as const;

/**
 * The windows of a wall by itself: all four days or none, each window forwards, the first over before the second begins, as
 * those of the plan.
 */
export function ownWindows(cells: CellReader, row: TableRow): Windows | undefined {
  const empty = columns.filter((column) => cells.text(row, column) === undefined);
  if (empty.length === columns.length) return undefined;
  const first = empty[0];
  if (first !== undefined) {
    const expected = `all of ${columns.join(', ')} for a wall with windows of its own, or none of them`;
    cells.refuseAs(row, first, 'nothing', expected);
    return undefined;
  }
  const dayIn = (column: (typeof columns)[number]) => optionalDayCell(cells, row, column) ?? '';
  const before = { from: dayIn('before_from'), to: dayIn('before_to') };
  const after = { from: dayIn('after_from'), to: dayIn('after_to') };
  if ([before.from, before.to, after.from, after.to].some((day) => dayFault(day) !== undefined)) return undefined;
  if (before.from > before.to) cells.refuse(row, 'before_to', `a day no earlier than before_from (${before.from})`);
  if (after.from > after.to) cells.refuse(row, 'after_to', `a day no earlier than after_from (${after.from})`);
  if (before.to >= after.from) cells.refuse(row, 'after_from', `a day after before_to (${before.to})`);
  return { before, after };
}
