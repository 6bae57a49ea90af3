/**
 * A table as CSV. A cell that a spreadsheet program would take for a formula is set off by an apostrophe.
 *
 * @example csvText(['wall', 'arm'], [['W01', 'device']]) // 'wall,arm\nW01,device\n'
 */
export function csvText(columns: readonly string[], rows: readonly (readonly string[])[]): string {
  return [columns, ...rows].map((row) => `${row.map(cell).join(',')}\n`).join('');
}

function cell(text: string): string {
  const safe = /^[=+@\t\r]|^-(?![\d.])/.test(text) ? `'${text}` : text;
  return /[",\n\r]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
