import { present } from '../../plain/present.js';
import type { Mended, Problem, RowOrigin } from '../../trial/index.js';
import type { Table, TableRow } from '../folder/table.js';
import { quoted } from '../quoted.js';
import { isMissing } from './missing-words.js';

/** Reads the cells of one table, and notes what is wrong with them by row and column. */
export interface CellReader {
  readonly table: Table;
  /** The text of a cell; nothing when it is empty, `NA` or the like, or its column is not there. */
  text(row: TableRow, column: string): string | undefined;
  /** The text of a cell that must be filled; empty after noting the problem. */
  needed(row: TableRow, column: string, expected: string): string;
  refuse(row: TableRow, column: string, expected: string, suggestion?: string): void;
  /** For what lies between cells rather than in one. */
  refuseAs(row: TableRow, column: string, found: string, expected: string): void;
  /** Takes down that a cell was read as something else than it literally says, and could not be read otherwise. */
  mended(row: TableRow, column: string, kind: Mended['kind'], as: string): void;
  origin(row: TableRow): RowOrigin;
}

/** The cell reader of a table; everything that it finds wrong is added to the problems. */
export function cellReader(table: Table, problems: Problem[]): CellReader {
  const file = table.place;

  function text(row: TableRow, column: string): string | undefined {
    const index = table.columns.get(column);
    if (index === undefined) return undefined;
    const cell = row.cells[index];
    return cell === undefined || isMissing(cell) ? undefined : cell;
  }

  function refuseAs(row: TableRow, column: string, found: string, expected: string): void {
    problems.push({ file, row: row.row, column, found, expected });
  }

  return {
    table,
    text,
    needed(row, column, expected) {
      const cell = text(row, column);
      // An absent column has been named once already.
      if (cell === undefined && table.columns.has(column)) refuseAs(row, column, 'nothing', expected);
      return cell ?? '';
    },
    refuse(row, column, expected, suggestion) {
      const found = quoted(text(row, column) ?? '');
      problems.push({
        file,
        row: row.row,
        column,
        found,
        expected,
        ...present({ suggestion }),
      });
    },
    refuseAs,
    mended(row, column, kind, as) {
      table.mended({ row: row.row, column, kind, found: text(row, column) ?? '', as });
    },
    origin: (row) => ({ file, row: row.row }),
  };
}
