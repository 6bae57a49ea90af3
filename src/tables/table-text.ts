import { type ShownOptions, type ShownRows, shownCells } from './shown-cells.js';

/**
 * Rows or a table as aligned text, for a terminal: numbers rounded to what is known of them and set to the right, `–` where nothing was
 * recorded or estimated. It rounds for the eye alone; compute with the rows.
 *
 * @example tableText([{ wall: 'W01', change: -1.5 }], { decimals: { change: 2 } }).split('\n')[1] // 'W01    −1.50'
 */
export function tableText(rows: ShownRows, options: ShownOptions = {}): string {
  const shown = shownCells(rows, options);
  const lines = [shown.columns.map(({ name }) => name), ...shown.rows];
  const widths = shown.columns.map((_, at) => Math.max(...lines.map((line) => widthOf(line[at] ?? ''))));
  const set = (text: string, at: number) => {
    const space = ' '.repeat((widths[at] ?? 0) - widthOf(text));
    return shown.columns[at]?.isNumber ? space + text : text + space;
  };
  return lines.map((line) => `${line.map(set).join('  ').trimEnd()}\n`).join('');
}

/** In signs, as a terminal counts them. */
function widthOf(text: string): number {
  return [...text].length;
}
