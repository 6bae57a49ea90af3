import { escapeHtml } from '../charts/escape-html.js';
import { type ShownOptions, type ShownRows, shownCells } from './shown-cells.js';

/**
 * Rows or a table as a table of a page, for a notebook: numbers rounded to what is known of them and set to the right, `–` where nothing
 * was recorded or estimated. It rounds for the eye alone; compute with the rows.
 *
 * @example tableHtml([{ wall: 'W01', change: -1.5 }], { decimals: { change: 2 } }).includes('−1.50') // true
 */
export function tableHtml(rows: ShownRows, options: ShownOptions = {}): string {
  const shown = shownCells(rows, options);
  const cell = (tag: 'td' | 'th', text: string, at: number) =>
    `<${tag} style="text-align:${shown.columns[at]?.isNumber ? 'right' : 'left'}">${escapeHtml(text)}</${tag}>`;
  const head = shown.columns.map(({ name }, at) => cell('th', name, at)).join('');
  const body = shown.rows.map((row) => `<tr>${row.map((text, at) => cell('td', text, at)).join('')}</tr>`);
  return ['<table>', `<thead><tr>${head}</tr></thead>`, '<tbody>', ...body, '</tbody>', '</table>'].join('\n');
}
