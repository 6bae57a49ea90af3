import { type TableName, tableLayouts } from '../records/folder/table-layouts.js';
import { notesOf } from './column-notes.js';
import type { FormSheet } from './form-sheet.js';

/** A sheet that the reader passes over: what every column of the others means. */
export const guideSheetName = 'guide';

export function guideSheet(tables: readonly TableName[]): FormSheet {
  return {
    name: guideSheetName,
    columns: [
      { heading: 'sheet', width: 12, needed: false },
      { heading: 'column', width: 24, needed: false },
      { heading: 'needed', width: 10, needed: false },
      { heading: 'what it holds', width: 80, needed: false, look: 'prose' },
      { heading: 'words', width: 50, needed: false, look: 'prose' },
      { heading: 'example', width: 28, needed: false },
    ],
    rows: tables.flatMap((table) => {
      const needed: readonly string[] = tableLayouts[table].needed;
      return [...notesOf(table)].map(([column, { note, words = [], example }]) => [
        ...[table, column, needed.includes(column) ? 'yes' : 'if known'],
        ...[note, words.join(', '), example],
      ]);
    }),
    rules: [],
  };
}
