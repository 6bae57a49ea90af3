// The face `fairwall/tables`: rows, and the same rows as tables for reshaping and showing.

// Given in the examples of the doc comments: two of the bundled trials.
//
//   const trial = await readTrial('datasets/paired-garden-walls');
//   const opinion = formOpinion(await readTrial('datasets/treated-walls-only'));

import { type ColumnTable, from } from 'arquero';
import type { Opinion } from '../opinion/index.js';
import type { Trial } from '../trial/index.js';
import type { Row } from './row.js';
import { type RowsOfOpinion, rowsOfOpinion } from './rows-of-opinion.js';
import { type RowsOfTrial, rowsOfTrial } from './rows-of-trial.js';

/** A table for each kind of row. */
export type TablesOf<T extends Opinion | Trial> = Readonly<
  Record<keyof (T extends Opinion ? RowsOfOpinion : RowsOfTrial), ColumnTable>
>;

/**
 * The tables of a trial or an opinion for reshaping and showing, in notebooks above all. Means and other statistics belong to the
 * library: a table of this kind passes over a missing number in silence.
 *
 * @example tablesOf(opinion).estimates.numRows() // 10
 */
export function tablesOf<T extends Opinion | Trial>(of: T): TablesOf<T> {
  const rows = 'verdict' in of ? rowsOfOpinion(of) : rowsOfTrial(of);
  const tables = Object.entries(rows).map(([name, list]: [string, readonly Row[]]) => [name, tableOf(list)]);
  return Object.fromEntries(tables) as TablesOf<T>;
}

/**
 * Flat records of your own as a table.
 *
 * @example tableOf([{ wall: 'W01' }, { wall: 'W02' }]).numRows() // 2
 */
export function tableOf(rows: readonly Row[]): ColumnTable {
  return from([...rows]);
}

/**
 * Records from a table or from records: whatever the library takes as rows may be given as either.
 *
 * @example recordsOf([{ wall: 'W01' }]) // [{ wall: 'W01' }]
 */
export function recordsOf<T extends object>(rows: readonly T[] | ColumnTable): readonly T[] {
  return 'objects' in rows ? (rows.objects() as T[]) : rows;
}

export * from './index.js';
