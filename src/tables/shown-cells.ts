import { formatNumber } from '../words/format-number.js';
import type { Cell, Row } from './row.js';

/** Rows, or a table that gives its rows, as those of arquero do. */
export type ShownRows = readonly Row[] | { objects(): object[] };

export interface ShownOptions {
  /** How many decimals are known, by column and, where rows differ, by row; a column that is not named has those of three digits, four at most. */
  readonly decimals?: Readonly<Record<string, number | ((row: Row) => number)>>;
}

/** Below it a number is written with a power of ten, as it is asked for by so many decimals. */
const [smallestPlain, asPower] = [0.001, 7];

/** A table as texts, ready to be set. */
export interface ShownCells {
  readonly columns: readonly { readonly name: string; readonly isNumber: boolean }[];
  readonly rows: readonly (readonly string[])[];
}

export function shownCells(shown: ShownRows, { decimals = {} }: ShownOptions): ShownCells {
  const rows = 'objects' in shown ? (shown.objects() as Row[]) : shown;
  const columns = Object.keys(rows[0] ?? {}).map((name) => {
    const cells = rows.flatMap((row) => row[name] ?? []);
    return { name, isNumber: cells.length > 0 && cells.every((cell) => typeof cell === 'number') };
  });
  return {
    columns,
    rows: rows.map((row) => columns.map(({ name }) => textOf(row[name] ?? null, known(row, decimals[name])))),
  };
}

function known(row: Row, decimals: number | ((row: Row) => number) | undefined): number | undefined {
  return typeof decimals === 'function' ? decimals(row) : decimals;
}

function textOf(cell: Cell, decimals: number | undefined): string {
  if (cell === null) return '–';
  if (typeof cell !== 'number') return String(cell);
  if (decimals !== undefined) return formatNumber(cell, decimals);
  if (Number.isInteger(cell)) return formatNumber(cell, 0);
  return Math.abs(cell) < smallestPlain ? formatNumber(cell, asPower) : formatNumber(cell, ofThreeDigits(cell));
}

function ofThreeDigits(value: number): number {
  return Math.min(4, Math.max(0, 2 - Math.floor(Math.log10(Math.abs(value)))));
}
