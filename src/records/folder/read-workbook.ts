import readSheets, { type SheetData } from 'read-excel-file/universal';
import type { Problem } from '../../trial/index.js';
import { nearestName } from '../nearest-name.js';
import { quoted } from '../quoted.js';
import { type FormulaError, formulaErrors } from './formula-errors.js';
import { openArchive } from './open-archive.js';
import type { Records } from './records.js';
import { sheetCells } from './sheet-cells.js';
import { type TableName, tableLayouts, tableNames } from './table-layouts.js';

/**
 * The tables of a workbook: the sheets that bear the name of a table, with or without its `.csv`. Other sheets are ignored,
 * unless their name is so close to that of a table found nowhere else that it must be a slip.
 *
 * @param elsewhere - the tables that lie in the folder as CSV.
 * @returns nothing when the workbook does not open.
 */
export async function readWorkbook(
  file: string,
  bytes: Uint8Array,
  elsewhere: ReadonlySet<TableName>,
  problems: Problem[],
): Promise<ReadonlyMap<TableName, Records> | undefined> {
  const archive = openArchive(bytes);
  const sheets = archive === undefined ? undefined : await sheetsOf(bytes);
  if (archive === undefined || sheets === undefined) {
    problems.push({ file, found: foundInstead(bytes), expected: 'a workbook in .xlsx format that opens' });
    return undefined;
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
      const records = { place: `${file} / ${sheet}`, rows: sheetCells(data) };
      tables.set(table, records);
      for (const error of errors.get(sheet) ?? []) problems.push(formulaProblem(records, error));
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

function formulaProblem({ place, rows }: Records, { row, column, error }: FormulaError): Problem {
  const header = rows.find((cells) => cells.some((cell) => cell !== ''));
  const name = header?.[column]?.trim() || `number ${column + 1}`;
  const expected = 'a value, NA or nothing';
  return { file: place, row, column: name, found: `the formula error ${quoted(error)}`, expected };
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
