import type { Opinion } from '../opinion/index.js';
import type { Trial } from '../trial/index.js';
import { rowsOfOpinion } from './rows-of-opinion.js';
import { rowsOfTrial } from './rows-of-trial.js';
import { tableCsv } from './table-csv.js';

/**
 * The tables of a trial and of its opinion as CSV files, by file name; a table without rows has none.
 *
 * @example Object.keys(tablesCsv(trial, opinion)).includes('wall_changes.csv') // true
 */
export function tablesCsv(trial: Trial, opinion: Opinion): Readonly<Record<string, string>> {
  const tables = Object.entries({ ...rowsOfTrial(trial), ...rowsOfOpinion(opinion) });
  return Object.fromEntries(
    tables.flatMap(([name, rows]) => (rows.length === 0 ? [] : [[`${name}.csv`, tableCsv(rows)]])),
  );
}
