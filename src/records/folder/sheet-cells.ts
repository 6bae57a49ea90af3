import type { SheetData } from 'read-excel-file/universal';
import { decimalMark } from './decimal-mark.js';

/**
 * The cells of a sheet as texts, as if they had been typed: numbers with up to 15 significant digits, as spreadsheet
 * programs show them; dates as ISO days, with the time where there is one.
 *
 * Where texts of the sheet are numbers with a decimal comma (`<0,5` can only be typed as text), the numbers are given the
 * same mark.
 */
export function sheetCells(data: SheetData): string[][] {
  const texts = data.flatMap((row) => row.flatMap((cell: unknown) => (typeof cell === 'string' ? cell.trim() : [])));
  const mark = decimalMark(texts, undefined);
  return data.map((row) => row.map((cell: unknown) => cellText(cell, mark === 'comma')));
}

function cellText(cell: unknown, decimalComma: boolean): string {
  if (cell === null || cell === undefined) return '';
  if (cell instanceof Date) return dateText(cell);
  if (typeof cell === 'number') {
    const text = String(Number(cell.toPrecision(15)));
    return decimalComma ? text.replace('.', ',') : text;
  }
  return String(cell).replace(/\s+/g, ' ').normalize('NFC');
}

/** Sheets know no time zones: what was typed comes as if it were universal time, give or take a rounding error. */
function dateText(date: Date): string {
  const seconds = new Date(Math.round(date.getTime() / 1000) * 1000);
  if (Number.isNaN(seconds.getTime())) return 'a date beyond all calendars';
  // Without milliseconds and zone; without seconds or time where there are none.
  return seconds
    .toISOString()
    .slice(0, -5)
    .replace(/(?:T00:00)?:00$/, '');
}
