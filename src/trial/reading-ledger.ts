/** How a folder was read: what each table and column was taken for, what was mended on the way, and what was not used. */
export interface ReadingLedger {
  readonly tables: readonly TableRead[];
  readonly mended: readonly Mended[];
  readonly notUsed: readonly NotUsed[];
}

export interface TableRead {
  /** For instance `cores.csv`, or `trial.xlsx / Drilled cores`. */
  readonly file: string;
  /** The table of the contract, such as `cores`. */
  readonly table: string;
  readonly headerRow: number;
  readonly rows: number;
  readonly columns: readonly ColumnRead[];
  /** Absent where no number has a fraction. */
  readonly decimal?: 'point' | 'comma';
}

export interface ColumnRead {
  /** As it is written in the table. */
  readonly heading: string;
  /** The column of the contract. */
  readonly as: string;
  /** Of a column of numbers that has one. */
  readonly unit?: string;
  /** Of a column of dates that are not written as YYYY-MM-DD throughout. */
  readonly dateOrder?: DateOrder;
}

export type DateOrder = 'day-first' | 'month-first';

/** What could be read only one way, and was read that way: a word in another case, a unit behind a number, another style of date. */
export interface Mended {
  readonly file: string;
  readonly column: string;
  readonly kind: 'date' | 'unit' | 'name' | 'word';
  /** The first of them, and what it was taken for. */
  readonly found: string;
  readonly as: string;
  readonly row: number;
  readonly rows: number;
}

export type NotUsed =
  | { readonly kind: 'sheet'; readonly file: string; readonly sheet: string; readonly isListed: boolean }
  | {
      readonly kind: 'column';
      readonly file: string;
      readonly column: string;
      /** How many cells below the heading hold something. */
      readonly cells: number;
      /** Whether the plan lists it under `ignore`. */
      readonly isListed: boolean;
    }
  | {
      readonly kind: 'rows';
      readonly file: string;
      readonly what: 'above the header' | 'units' | 'header again' | 'totals' | 'note';
      readonly rows: readonly number[];
    }
  | { readonly kind: 'instrument'; readonly instrument: string }
  /** Cores of one wall and day that are averaged as if they came from one place, as the plan says that nobody knows better. */
  | { readonly kind: 'places'; readonly file: string; readonly cores: number };

/**
 * One line of what was not used.
 *
 * @example describeNotUsed({ kind: 'column', file: 'cores.csv', column: 'Shelf', cells: 40, isListed: false }) // 'cores.csv: column "Shelf", 40 cells'
 */
export function describeNotUsed(notUsed: NotUsed): string {
  switch (notUsed.kind) {
    case 'sheet':
      return `${notUsed.file}: sheet ${shown(notUsed.sheet)}${listed(notUsed.isListed)}`;
    case 'column':
      return `${notUsed.file}: column ${shown(notUsed.column)}, ${count(notUsed.cells, 'cell')}${listed(notUsed.isListed)}`;
    case 'rows':
      return `${notUsed.file}: ${rowsInWords(notUsed.rows)} (${notUsed.what})`;
    case 'instrument':
      return `the instrument ${shown(notUsed.instrument)} of the plan: no reading of it`;
    case 'places':
      return `${notUsed.file}: the places of ${count(notUsed.cores, 'core')}, which the plan calls unknown; cores of one wall and day are averaged`;
  }
}

/**
 * One line of what was mended.
 *
 * @example describeMended({ file: 'readings.csv', column: 'knew_arm', kind: 'word', found: 'YES', as: 'yes', row: 2, rows: 150 }) // 'readings.csv, column knew_arm: "YES" read as "yes", 150 rows (first: row 2)'
 */
export function describeMended({ file, column, found, as, row, rows }: Mended): string {
  const where = rows === 1 ? `row ${row}` : `${rows} rows (first: row ${row})`;
  return `${file}, column ${column}: ${shown(found)} read as ${shown(as)}, ${where}`;
}

function listed(isListed: boolean): string {
  return isListed ? ', as the plan says' : '';
}

function rowsInWords(rows: readonly number[]): string {
  const most = 5;
  const named = rows.slice(0, most).join(', ');
  const more = rows.length > most ? ` and ${rows.length - most} more` : '';
  return `${rows.length === 1 ? 'row' : 'rows'} ${named}${more}`;
}

function count(amount: number, noun: string): string {
  return `${amount} ${noun}${amount === 1 ? '' : 's'}`;
}

function shown(text: string): string {
  return JSON.stringify(text.length > 60 ? `${text.slice(0, 60)}…` : text);
}
