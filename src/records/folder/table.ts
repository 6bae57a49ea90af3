import type { DateOrder, Mended } from '../../trial/index.js';
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
  /** Of columns with dates in another style: which comes first. `unknown` has been named as a problem. */
  readonly dateOrders: ReadonlyMap<string, DateOrder | 'unknown'>;
  readonly rows: readonly TableRow[];
  /** How many rows were no rows of this table, with too few or too many cells. */
  readonly refusedRows: number;
  /** Takes down a cell that could be read only one way and was read that way. */
  readonly mended: (cell: Omit<Mended, 'rows' | 'file'>) => void;
}

export interface TableRow {
  /** As a spreadsheet counts: the header of a table without leading blank rows is row 1. */
  readonly row: number;
  /** Without blanks at either end. */
  readonly cells: readonly string[];
}
