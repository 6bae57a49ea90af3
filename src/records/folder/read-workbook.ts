import readSheets, { type SheetData } from 'read-excel-file/universal';
import type { Problem } from '../../trial/index.js';
import { nearestName } from '../nearest-name.js';
import { quoted } from '../quoted.js';
import { formulaErrors } from './formula-errors.js';
import { openArchive } from './open-archive.js';
import type { Records } from './records.js';
import { sheetCells } from './sheet-cells.js';
import { type TableName, tableLayouts, tableNames } from './table-layouts.js';

/**
 * The tables of a workbook: the sheets that bear the name of a table, with or without its `.csv`. Other sheets are ignored,
 * unless their name is so close to that of a table found nowhere else that it must be a slip.
 *
 * @param elsewhere - the tables that lie in the folder as CSV.
 */
export async function readWorkbook(
  file: string,
  bytes: Uint8Array,
  elsewhere: ReadonlySet<TableName>,
  problems: Problem[],
): Promise<ReadonlyMap<TableName, Records>> {
  const archive = openArchive(bytes);
  const sheets = archive === undefined ? undefined : await sheetsOf(bytes);
  if (archive === undefined || sheets === undefined) {
    problems.push({ file, found: foundInstead(bytes), expected: 'a workbook in .xlsx format that opens' });
    return new Map();
  }
  const errors = formulaErrors(archive);
  const tables = new Map<TableName, Records>();
  const strangers: string[] = [];
  for (const { sheet, data } of sheets) {
    const table = tableNames.find((name) => sheet === name || sheet === tableLayouts[name].file);
    if (table === undefined) strangers.push(sheet);
    else if (tables.has(table)) {
      problems.push({
        file: `${file} / ${sheet}`,
        found: `a second sheet for ${table}`,
        expected: 'one sheet a table',
      });
    } else if (elsewhere.has(table)) {
      const found = `the table ${table} both here and in ${tableLayouts[table].file}`;
      problems.push({ file: `${file} / ${sheet}`, found, expected: 'each table once, as a CSV file or as a sheet' });
    } else {
      const place = `${file} / ${sheet}`;
      tables.set(table, { place, rows: sheetCells(data) });
      for (const { row, cell, error } of errors.get(sheet) ?? []) {
        const found = `the formula error ${quoted(error)} in cell ${cell}`;
        problems.push({ file: place, row, found, expected: 'a value, NA or nothing' });
      }
    }
  }
  const absent = tableNames.filter((name) => !tables.has(name) && !elsewhere.has(name));
  for (const sheet of strangers) {
    const suggestion = nearestName(sheet.replace(/\.csv$/i, ''), absent);
    if (suggestion === undefined) continue;
    const expected = `sheets named ${tableNames.join(', ')}; any other sheet needs a name less like one of these`;
    problems.push({ file, found: `a sheet ${quoted(sheet)}`, expected, suggestion });
  }
  return tables;
}

async function sheetsOf(bytes: Uint8Array): Promise<readonly { sheet: string; data: SheetData }[] | undefined> {
  try {
    return await readSheets(bytes.slice().buffer);
  } catch {
    // The archive is sound but its content is no workbook; the reader's own words help nobody.
    return undefined;
  }
}

function foundInstead(bytes: Uint8Array): string {
  if (bytes.length === 0) return 'an empty file';
  if (bytes[0] === 0xd0 && bytes[1] === 0xcf) return 'a workbook of the older kind (.xls), or one with a password';
  return 'a file that is damaged, cut off or no workbook';
}
