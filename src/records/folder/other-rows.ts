import type { TableLayout } from './table-layouts.js';

const totals: ReadonlySet<string> = new Set(
  'total totals sum mean average avg median sd stdev min max minimum maximum count n subtotal'.split(' '),
);

/** Longer than any of the words, with whatever may stand before and behind. */
const longest = 24;

function isTotalsWord(cell: string): boolean {
  // Most rows begin with a date or a name that holds a digit, and there are many.
  if (cell.length > longest || /\d/.test(cell)) return false;
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
  if (layout.needed.length <= 2 || cells.length === 0) return false;
  const at = cells.findIndex((cell) => cell !== '');
  if (cells.findLastIndex((cell) => cell !== '') !== at) return false;
  const filled = cells.slice(at, at + 1);
  return /\p{L}{2,}\S*\s+\S*\p{L}/u.test(filled[0] ?? '');
}
