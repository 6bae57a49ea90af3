/** What a cell of a table holds; `null` where nothing was recorded or estimated. */
export type Cell = string | number | boolean | null;

/** A flat record, its columns named with their units: a row of a table, of a CSV file, of a data frame. */
export type Row = Readonly<Record<string, Cell>>;

/** Tables by name. */
export type Rows = Readonly<Record<string, readonly Row[]>>;

/** `null` for what is absent, so that every row of a table has the same columns. */
export function orNull<T extends Exclude<Cell, null>>(value: T | undefined): T | null {
  return value ?? null;
}
