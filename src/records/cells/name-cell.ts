import type { TableRow } from '../folder/table.js';
import type { CellReader } from './cell-reader.js';
import type { KnownNames } from './known-names.js';

/**
 * A cell that must hold one of the known names. Where the names are not known, because the file that defines them could
 * not be read, any name passes: the trial fails anyway, and for a reason that is named once.
 */
export function nameCell(cells: CellReader, row: TableRow, column: string, known: KnownNames | undefined): string {
  const name = cells.needed(row, column, known?.expected ?? 'a name');
  return name === '' || known === undefined ? name : checkedName(cells, row, column, name, known);
}

/** Like `nameCell`, for a cell that may be empty. */
export function optionalNameCell(
  cells: CellReader,
  row: TableRow,
  column: string,
  known: KnownNames | undefined,
): string | undefined {
  const name = cells.text(row, column);
  return name === undefined || known === undefined ? name : checkedName(cells, row, column, name, known);
}

function checkedName(cells: CellReader, row: TableRow, column: string, name: string, known: KnownNames): string {
  if (known.has(name)) return name;
  const meant = known.inOtherCase(name);
  if (meant === undefined) cells.refuse(row, column, known.expected, known.nearest(name));
  else cells.mended(row, column, 'name', meant);
  return meant ?? name;
}
