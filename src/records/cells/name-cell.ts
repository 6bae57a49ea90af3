import type { TableRow } from '../folder/table.js';
import type { CellReader } from './cell-reader.js';
import type { KnownNames } from './known-names.js';

/**
 * A cell that must hold one of the known names. Where the names are not known, because the file that defines them could
 * not be read, any name passes: the trial fails anyway, and for a reason that is named once.
 */
export function nameCell(cells: CellReader, row: TableRow, column: string, known: KnownNames | undefined): string {
  const name = cells.needed(row, column, known?.expected ?? 'a name');
  if (name !== '' && known !== undefined) checkName(cells, row, column, name, known);
  return name;
}

/** Like `nameCell`, for a cell that may be empty. */
export function optionalNameCell(
  cells: CellReader,
  row: TableRow,
  column: string,
  known: KnownNames | undefined,
): string | undefined {
  const name = cells.text(row, column);
  if (name !== undefined && known !== undefined) checkName(cells, row, column, name, known);
  return name;
}

function checkName(cells: CellReader, row: TableRow, column: string, name: string, known: KnownNames): void {
  if (!known.has(name)) cells.refuse(row, column, known.expected, known.nearest(name));
}
