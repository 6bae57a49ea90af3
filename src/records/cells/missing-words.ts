/** What people write where there is no value; an empty cell says the same. */
export const missingWords = ['na', 'n/a', 'n.a.', '-', '--', '\u2013', '\u2014'] as const;

const words: ReadonlySet<string> = new Set(missingWords);

/**
 * Whether a cell says that there is no value.
 *
 * @param cell without blanks at either end.
 * @example isMissing('n/a') // true
 */
export function isMissing(cell: string): boolean {
  // Nearly all cells are longer or empty.
  return cell === '' || (cell.length < 5 && words.has(cell.toLowerCase()));
}
