import type { SheetData } from 'read-excel-file/universal';
import { msInDay } from '../../plain/days.js';
import { decimalMark } from './decimal-mark.js';
import { cellKey } from './scan-sheet.js';

/**
 * The cells of a sheet as texts, as if they had been typed: numbers with up to 15 significant digits, as spreadsheet
 * programs show them; dates as ISO days, with the time where there is one.
 *
 * Where texts of the sheet are numbers with a decimal comma (`<0,5` can only be typed as text), the numbers are given the
 * same mark. A number that is shown as per cent comes with both, as `14.9% shown for 0.149`, which is no number.
 *
 * @param perCent the cells shown as per cent, by `cellKey`
 * @param shift_days by how many days the reader places all dates too early
 */
export function sheetCells(data: SheetData, perCent: ReadonlySet<number> = new Set(), shift_days = 0): string[][] {
  const texts = data.flatMap((row) => row.flatMap((cell: unknown) => (typeof cell === 'string' ? cell.trim() : [])));
  const mark = decimalMark(texts, undefined);
  const text = (cell: unknown, row: number, column: number) => {
    if (cell instanceof Date) return dateText(new Date(cell.getTime() + shift_days * msInDay));
    if (typeof cell !== 'number') return cellText(cell);
    return perCent.has(cellKey(row + 1, column))
      ? `${numberText(100 * cell, mark === 'comma')}% shown for ${numberText(cell, mark === 'comma')}`
      : numberText(cell, mark === 'comma');
  };
  return data.map((row, rowIndex) => row.map((cell: unknown, column) => text(cell, rowIndex, column)));
}

function numberText(value: number, decimalComma: boolean): string {
  const text = String(Number(value.toPrecision(15)));
  return decimalComma ? text.replace('.', ',') : text;
}

function cellText(cell: unknown): string {
  if (cell === null || cell === undefined) return '';
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
