import { readSheet, type SheetData } from 'read-excel-file/universal';
import type { Problem } from '../../trial/index.js';
import { nearestName } from '../nearest-name.js';
import { quoted } from '../quoted.js';
import { ArchiveTooLargeError, openArchive } from './open-archive.js';
import { packArchive } from './pack-archive.js';
import type { Records } from './records.js';
import { mostColumns, type SheetScan, scanSheet } from './scan-sheet.js';
import { sheetCells } from './sheet-cells.js';
import { type TableName, tableLayouts, tableNames } from './table-layouts.js';
import { layoutParts, perCentStyles, type WorkbookLayout, workbookLayout } from './workbook-layout.js';
import { tagsEnd } from './xml-elements.js';

/** Rows times columns from the first cell to the last; the reader makes room for all of them. */
const mostCells = 10_000_000;
const mostRows = 1_048_576;
/** From 1 January 1900 to 1 January 1904, as workbooks count. */
const daysTo1904 = 1462;

/**
 * The tables of a workbook: the sheets that bear the name of a table, with or without its `.csv`. Other sheets are ignored and never
 * unpacked, unless their name is so close to that of a table found nowhere else that it must be a slip.
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
  const opened = open(bytes);
  if (opened === undefined) {
    problems.push({ file, found: foundInstead(bytes), expected: 'a workbook in .xlsx format that opens' });
    return undefined;
  }
  if (opened === 'too-large') {
    const expected = 'tables of at most 128 MB unpacked';
    problems.push({ file, found: 'a workbook whose tables unpack to far more than they can hold', expected });
    return undefined;
  }
  const { layout, files } = opened;
  const wanted = sheetsWanted(file, layout, elsewhere, problems);
  nameSlips(file, layout, wanted, elsewhere, problems);
  const percent = perCentStyles(files.get(layout.stylesPart) ?? new Uint8Array());
  const tables = new Map<TableName, Records>();
  for (const [table, sheet] of wanted) {
    const records = await recordsOf(`${file} / ${sheet.name}`, sheet, opened, percent, problems);
    if (records !== undefined) tables.set(table, records);
  }
  // Where a sheet could not be read, nobody can say what the workbook lacks.
  return wanted.size > tables.size ? undefined : tables;
}

async function recordsOf(
  place: string,
  { name, part }: WorkbookLayout['sheets'][number],
  { layout, files }: OpenWorkbook,
  percent: ReadonlySet<number>,
  problems: Problem[],
): Promise<Records | undefined> {
  const scan = scanSheet(new TextDecoder().decode(files.get(part) ?? new Uint8Array()), percent);
  const length = files.get(part)?.length ?? 0;
  const tooFar = farProblem(place, scan) ?? hollowProblem(place, scan, length);
  if (tooFar !== undefined) {
    problems.push(tooFar);
    return undefined;
  }
  const needed = new Set<string>([...Object.values(layoutParts), layout.stylesPart, layout.stringsPart, part]);
  const parts = new Map([...files].filter(([path]) => needed.has(path)));
  const data = await sheetData(name, parts);
  const shift_days = layout.countsFrom1904 === 'true' ? daysTo1904 : 0;
  const records = { place, rows: data instanceof Error ? [] : sheetCells(data, scan.perCent, shift_days) };
  for (const { row, column, found } of scan.faults) {
    const expected = 'a value, NA or nothing';
    problems.push({ file: place, row, column: columnName(records, column), found, expected });
  }
  if (data instanceof Error) {
    if (scan.faults.length === 0) problems.push(unreadableSheet(place, data));
    return undefined;
  }
  problems.push(...controlCharacters(records));
  return records;
}

interface OpenWorkbook {
  readonly layout: WorkbookLayout;
  /** The parts that the reader needs for the tables. */
  readonly files: ReadonlyMap<string, Uint8Array>;
}

function open(bytes: Uint8Array): OpenWorkbook | 'too-large' | undefined {
  try {
    const parts: readonly string[] = Object.values(layoutParts);
    const outline = openArchive(bytes, (name) => parts.includes(name));
    if (outline === undefined || !outline.has(layoutParts.workbook)) return undefined;
    const layout = workbookLayout(outline);
    const tables = layout.sheets.filter(({ name }) => tableOf(name) !== undefined).map(({ part }) => part);
    const needed = new Set([...parts, layout.stylesPart, layout.stringsPart, ...tables]);
    const files = openArchive(bytes, (name) => needed.has(name));
    if (files === undefined) return undefined;
    const texts = [...files.values()].map((content) => new TextDecoder().decode(content));
    return texts.every(tagsEnd) ? { layout, files } : undefined;
  } catch (error) {
    if (error instanceof ArchiveTooLargeError) return 'too-large';
    throw error;
  }
}

function tableOf(sheet: string): TableName | undefined {
  return tableNames.find((name) => sheet === name || sheet === tableLayouts[name].file);
}

/** The sheet of each table; a table in two places is none. */
function sheetsWanted(
  file: string,
  { sheets }: WorkbookLayout,
  elsewhere: ReadonlySet<TableName>,
  problems: Problem[],
): ReadonlyMap<TableName, WorkbookLayout['sheets'][number]> {
  const wanted = new Map<TableName, WorkbookLayout['sheets'][number]>();
  for (const sheet of sheets) {
    const table = tableOf(sheet.name);
    if (table === undefined) continue;
    const place = `${file} / ${sheet.name}`;
    if (wanted.has(table)) {
      problems.push({ file: place, found: `a second sheet for ${table}`, expected: 'one sheet a table' });
    } else if (elsewhere.has(table)) {
      const found = `the table ${table} both here and in ${tableLayouts[table].file}`;
      problems.push({ file: place, found, expected: 'each table once, as a CSV file or as a sheet' });
    } else wanted.set(table, sheet);
  }
  return wanted;
}

function nameSlips(
  file: string,
  { sheets }: WorkbookLayout,
  wanted: ReadonlyMap<TableName, unknown>,
  elsewhere: ReadonlySet<TableName>,
  problems: Problem[],
): void {
  const absent = tableNames.filter((name) => !wanted.has(name) && !elsewhere.has(name));
  for (const { name } of sheets) {
    const suggestion = tableOf(name) === undefined ? nearestName(name.replace(/\.csv$/i, ''), absent) : undefined;
    if (suggestion === undefined) continue;
    const expected = `sheets named ${tableNames.join(', ')}; any other sheet needs a name less like one of these`;
    problems.push({ file, found: `a sheet ${quoted(name)}`, expected, suggestion });
  }
}

/** Blanks or empty rows by the million, which cost the reader minutes and hold nothing (limits of our own). */
function hollowProblem(place: string, { size }: SheetScan, length: number): Problem | undefined {
  const isHollow = length > 5_000_000 + 2000 * size.cells || size.rows > 100_000 + 20 * size.cells;
  if (!isHollow) return undefined;
  const found = `${size.rows} rows with ${size.cells} cells in ${Math.ceil(length / 1e6)} MB`;
  return { file: place, found, expected: 'a table whose rows hold cells' };
}

/** One stray cell at the far end makes a sheet of billions of cells. */
function farProblem(place: string, { size }: SheetScan): Problem | undefined {
  if (size.lastRow > mostRows || size.rows > mostRows || size.lastColumn > mostColumns) {
    const expected = `at most ${mostRows} rows and ${mostColumns} columns, as every sheet has`;
    return { file: place, found: `${Math.max(size.rows, size.lastRow)} rows and ${size.lastColumn} columns`, expected };
  }
  const cells = Math.max(size.cells, size.valueRow * size.valueColumn);
  if (cells <= mostCells) return undefined;
  const found = `a table that reaches as far as cell ${size.farthest || 'unknown'}, ${size.valueRow} rows by ${size.valueColumn} columns`;
  return { file: place, found, expected: `at most ${mostCells} cells; a stray cell may stand far from the others` };
}

/** The cells of a sheet, from an archive that holds nothing but what has been looked at. */
async function sheetData(sheet: string, parts: ReadonlyMap<string, Uint8Array>): Promise<SheetData | Error> {
  try {
    return await readSheet(packArchive(parts).buffer, sheet);
  } catch (error) {
    return error instanceof Error ? error : new Error(String(error));
  }
}

/** The reader names the cell, and what is wrong with it in words of its own. */
function unreadableSheet(place: string, error: Error): Problem {
  const expected = 'a sheet of cells that a spreadsheet program can open';
  const cell = /row (\d+), col (\d+)/.exec(error.message);
  if (cell === null)
    return { file: place, found: 'a sheet that is damaged or of another kind, such as a chart', expected };
  const at = { file: place, row: Number(cell[1]), column: `number ${cell[2]}` };
  return { ...at, found: 'a cell that does not hold what its kind says', expected };
}

function controlCharacters(records: Records): Problem[] {
  return records.rows.flatMap((cells, row) =>
    cells.flatMap((cell, column): Problem[] => {
      if (!/\p{Cc}/u.test(cell)) return [];
      const expected = 'text without control characters';
      return [
        { file: records.place, row: row + 1, column: columnName(records, column), found: quoted(cell), expected },
      ];
    }),
  );
}

function columnName({ rows }: Records, column: number): string {
  const header = rows.find((cells) => cells.some((cell) => cell !== ''));
  return header?.[column]?.trim() || `number ${column + 1}`;
}

function foundInstead(bytes: Uint8Array): string {
  if (bytes.length === 0) return 'an empty file';
  if (bytes[0] === 0xd0 && bytes[1] === 0xcf) return 'a workbook of the older kind (.xls), or one with a password';
  return 'a file that is damaged, cut off or no workbook';
}
