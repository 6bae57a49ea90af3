import type { TableLayout } from './table-layouts.js';

const totals: ReadonlySet<string> = new Set(
  'total totals sum mean average avg median sd stdev min max minimum maximum count n subtotal'.split(' '),
);

function isTotalsWord(cell: string): boolean {
  const plain = cell
    .toLowerCase()
    .replace(/[.:=\s]+$/, '')
    .replace(/^(?:grand|standard|sub)[\s-]+/, '');
  return totals.has(plain) || plain === 'deviation' || plain === '\u03a3';
}

/**
 * Whether a row sums up others: it has such a word in its first filled cell, and lacks one of the needed cells that say what a record is of
 * (its date or wall, say), or has the word there.
 */
export function isTotalsRow(
  cells: readonly string[],
  columns: ReadonlyMap<string, number>,
  layout: TableLayout,
): boolean {
  const first = cells.find((cell) => cell !== '');
  if (first === undefined || !isTotalsWord(first)) return false;
  const saying = layout.needed.filter((column) => !layout.numeric.includes(column));
  const empty = saying.filter((column) => {
    const cell = cells[columns.get(column) ?? -1] ?? '';
    return cell === '' || isTotalsWord(cell);
  });
  return empty.length > 0 && (empty.length > 1 || saying.length > 1 || cells.filter((cell) => cell !== '').length > 1);
}

/** A remark below or between the rows: several words in one cell, and nothing else in a table that needs more. */
export function isNoteRow(cells: readonly string[], layout: TableLayout): boolean {
  const filled = cells.filter((cell) => cell !== '');
  return layout.needed.length > 2 && filled.length === 1 && /\p{L}{2,}\S*\s+\S*\p{L}/u.test(filled[0] ?? '');
}
