import Papa from 'papaparse';
import type { Cell, Sheet } from 'write-excel-file/node';

/** The cells of a plain CSV text. */
export function cellsOf(csv: string): string[][] {
  return Papa.parse<string[]>(csv.trimEnd(), { delimiter: ',' }).data;
}

export function csvOf(cells: readonly string[][], separator: ',' | ';', newline: string): string {
  return `${Papa.unparse(cells as string[][], { delimiter: separator, newline })}${newline}`;
}

/** Sheets with numbers and dates as a spreadsheet program would hold them, named after the tables without `.csv`. */
export function sheetsOf(tables: readonly (readonly [string, string[][]])[]): Sheet<never>[] {
  return tables.map(([name, rows]) => ({ sheet: name.replace('.csv', ''), data: rows.map((row) => row.map(cellOf)) }));
}

function cellOf(text: string): Cell {
  if (text === '') return null;
  if (/^-?\d+(\.\d+)?$/.test(text)) return { value: Number(text), type: Number };
  if (/^\d{4}-\d{2}-\d{2}$/.test(text)) return { value: new Date(text), type: Date, format: 'yyyy-mm-dd' };
  if (/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/.test(text)) {
    return { value: new Date(`${text}Z`), type: Date, format: 'yyyy-mm-dd hh:mm' };
  }
  return { value: text, type: String };
}
