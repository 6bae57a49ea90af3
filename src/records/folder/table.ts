import type { DecimalMark } from './decimal-mark.js';

/** A table with a checked header: its columns found, its blank rows gone, every row as long as the header. */
export interface Table {
  readonly place: string;
  readonly separator?: 'comma' | 'semicolon';
  readonly decimal?: DecimalMark;
  /** Where each column of the contract stands. A column that is not there is not in the map. */
  readonly columns: ReadonlyMap<string, number>;
  /** Where the columns stand that the contract does not know. */
  readonly furtherColumns: readonly number[];
  readonly rows: readonly TableRow[];
  /** How many rows were no rows of this table, with too few or too many cells. */
  readonly refusedRows: number;
}

export interface TableRow {
  /** As a spreadsheet counts: the header of a table without leading blank rows is row 1. */
  readonly row: number;
  /** Without blanks at either end. */
  readonly cells: readonly string[];
}
