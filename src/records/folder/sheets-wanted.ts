import type { Problem } from '../../trial/index.js';
import { nearestName } from '../nearest-name.js';
import { quoted } from '../quoted.js';
import type { Workbook } from './read-workbook.js';
import type { ReadingNotes } from './reading-notes.js';
import { fileOfSheet, type SheetName, sheetNames, tableNames } from './table-layouts.js';
import { plainName, type TableNaming, tableOfSheet } from './table-naming.js';

/** A sheet that explains the others, as the workbook to fill in has one, holds nothing that could be missed. */
const guideSheet = 'guide';

/**
 * The sheet of each table, the plan's aside, which has been read; a table in two places is none. A sheet whose name is so close to that of
 * a table found nowhere else that it must be a slip is a problem; any other sheet is taken down as not used.
 *
 * @param elsewhere what lies in the folder as CSV.
 */
export function sheetsWanted(
  { file, sheets }: Workbook,
  elsewhere: ReadonlySet<SheetName>,
  naming: TableNaming,
  notes: ReadingNotes,
  problems: Problem[],
): ReadonlyMap<SheetName, Workbook['sheets'][number]> {
  const wanted = new Map<SheetName, Workbook['sheets'][number]>();
  const others: string[] = [];
  for (const sheet of sheets) {
    const table = tableOfSheet(sheet.name, naming);
    const place = `${file} / ${sheet.name}`;
    if (table === undefined) others.push(sheet.name);
    else if (wanted.has(table)) {
      problems.push({ file: place, found: `a second sheet for ${table}`, expected: 'one sheet a table' });
    } else if (elsewhere.has(table)) {
      const found = `the table ${table} both here and in ${fileOfSheet(table)}`;
      problems.push({ file: place, found, expected: 'each table once, as a CSV file or as a sheet' });
    } else wanted.set(table, sheet);
  }
  const absent = sheetNames.filter((name) => !wanted.has(name) && !elsewhere.has(name));
  for (const sheet of others) {
    const isListed = naming.ignore.has(plainName(sheet));
    if (plainName(sheet) === guideSheet && !isListed) continue;
    notes.notUsed.push({ kind: 'sheet', file, sheet, isListed });
    const suggestion = isListed ? undefined : nearestName(sheet.replace(/\.csv$/i, ''), absent);
    if (suggestion === undefined) continue;
    const expected = `sheets named ${tableNames.join(', ')}; any other sheet needs a name less like one of these`;
    problems.push({ file, found: `a sheet ${quoted(sheet)}`, expected, suggestion });
  }
  wanted.delete('plan');
  return wanted;
}
