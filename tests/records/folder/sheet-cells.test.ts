import type { SheetData } from 'read-excel-file/universal';
import { expect, it } from 'vitest';
import { sheetCells } from '../../../src/records/folder/sheet-cells.js';

const cells = (...row: unknown[]): string[] | undefined => sheetCells([row] as SheetData)[0];

it('sheetCells(data) writes dates as ISO days, with the time where there is one', () => {
  // A quarter of a day less a rounding error, as a spreadsheet's binary fractions give it.
  const morning = new Date(Date.UTC(2024, 2, 1, 6) - 1);
  const time = new Date(Date.UTC(2024, 2, 1, 8, 30, 15));
  expect(cells(new Date('2024-03-01'), morning, time)).toEqual([
    '2024-03-01',
    '2024-03-01T06:00',
    '2024-03-01T08:30:15',
  ]);
});

it('sheetCells(data) writes numbers with 15 significant digits, as spreadsheets show them', () => {
  expect(cells(0.1 + 0.2, 12.300000000000001, 1e-7, -40)).toEqual(['0.3', '12.3', '1e-7', '-40']);
});

it('sheetCells(data) writes numbers with a comma where texts beside them have one', () => {
  expect(cells('<0,5', 12.5)).toEqual(['<0,5', '12,5']);
  expect(cells('<0.5', 12.5)).toEqual(['<0.5', '12.5']);
});

it('sheetCells(data) gives empty cells, truth values and texts of several lines one line of text each', () => {
  expect(cells(null, true, 'two\n lines', 'Bu\u0308ro')).toEqual(['', 'true', 'two lines', 'B\u00fcro']);
});
