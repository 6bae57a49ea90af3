import papaparse from 'papaparse';
import type { Row } from './row.js';

/**
 * Rows as CSV: comma, decimal point, UTF-8, a header row, an empty cell for `null`. Text that a spreadsheet would take for a formula
 * (it begins with =, +, -, @, a tab or a line end) gets an apostrophe in front; numbers stay as they are.
 *
 * @example tableCsv([{ wall: 'W01', change: -1.5 }]).split('\n')[1] // 'W01,-1.5'
 */
export function tableCsv(rows: readonly Row[]): string {
  const [first] = rows;
  if (first === undefined) return '';
  const columns = Object.keys(first);
  return `${papaparse.unparse(
    { fields: columns, data: rows.map((row) => columns.map((column) => harmless(row[column] ?? ''))) },
    { newline: '\n' },
  )}\n`;
}

function harmless(cell: string | number | boolean): string | number | boolean {
  return typeof cell === 'string' && /^[=+\-@\t\r\n]/.test(cell) ? `'${cell}` : cell;
}
