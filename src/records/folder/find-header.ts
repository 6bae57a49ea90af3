import { columnNamed, type HeadingNames } from './find-columns.js';
import type { TableLayout } from './table-layouts.js';

/** Titles, addresses and the like above a header take no more rows than this (our convention). */
const mostRowsAbove = 30;

/**
 * Where the header of a table stands: the first row that names every needed column; where there is none, the row that names most columns;
 * else the first row that holds anything.
 *
 * @returns -1 when all rows are blank.
 */
export function findHeader(rows: readonly (readonly string[])[], layout: TableLayout, names: HeadingNames): number {
  const first = rows.findIndex((cells) => cells.some((cell) => cell.trim() !== ''));
  let best = first;
  let most = 0;
  for (let index = first; index !== -1 && index < Math.min(rows.length, first + mostRowsAbove); index++) {
    const named = new Set((rows[index] ?? []).flatMap((cell) => columnNamed(cell, layout, names) ?? []));
    if (layout.needed.every((column) => named.has(column))) return index;
    if (named.size > most) [best, most] = [index, named.size];
  }
  return best;
}
