import type { SheetData } from 'read-excel-file/universal';
import type { Problem } from '../../trial/index.js';
import { quoted } from '../quoted.js';
import { ArchiveTooLargeError, openArchive } from './open-archive.js';
import { packArchive } from './pack-archive.js';
import type { Records } from './records.js';
import { mostColumns, type SheetScan, scanSheet } from './scan-sheet.js';
import { sheetCells } from './sheet-cells.js';
import { layoutParts, perCentStyles, type WorkbookLayout, workbookLayout } from './workbook-layout.js';
import { tagsEnd } from './xml-elements.js';

/** Rows times columns from the first cell to the last; the reader makes room for all of them. */
const mostCells = 10_000_000;
const mostRows = 1_048_576;
/** From 1 January 1900 to 1 January 1904, as workbooks count. */
const daysTo1904 = 1462;

/** A workbook that opens: where everything lies in it, and nothing unpacked yet. */
export interface Workbook {
  readonly file: string;
  readonly bytes: Uint8Array;
  readonly layout: WorkbookLayout;
  readonly sheets: WorkbookLayout['sheets'];
}

/** Opens a workbook; nothing when it does not open. */
export function openWorkbook(file: string, bytes: Uint8Array, problems: Problem[]): Workbook | undefined {
  const parts: readonly string[] = Object.values(layoutParts);
  const outline = unpacked(file, bytes, (name) => parts.includes(name), problems);
  if (outline === undefined) return undefined;
  if (!outline.has(layoutParts.workbook)) {
    problems.push({ file, found: foundInstead(bytes), expected: 'a workbook in .xlsx format that opens' });
    return undefined;
  }
  const layout = workbookLayout(outline);
  return { file, bytes, layout, sheets: layout.sheets };
}

/**
 * The cells of the sheets that are wanted; others are never unpacked.
 *
 * @returns nothing where one of them could not be read: nobody can then say what the workbook lacks.
 */
export async function sheetRecords<Name extends string>(
  { file, bytes, layout }: Workbook,
  wanted: ReadonlyMap<Name, WorkbookLayout['sheets'][number]>,
  problems: Problem[],
): Promise<ReadonlyMap<Name, Records> | undefined> {
  const sheets = [...wanted.values()].map(({ part }) => part);
  const needed = new Set<string>([...Object.values(layoutParts), layout.stylesPart, layout.stringsPart, ...sheets]);
  const files = unpacked(file, bytes, (name) => needed.has(name), problems);
  if (files === undefined) return undefined;
  const percent = perCentStyles(files.get(layout.stylesPart) ?? new Uint8Array());
  const tables = new Map<Name, Records>();
  for (const [table, sheet] of wanted) {
    const records = await recordsOf(`${file} / ${sheet.name}`, sheet, { layout, files }, percent, problems);
    if (records !== undefined) tables.set(table, records);
  }
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

function unpacked(
  file: string,
  bytes: Uint8Array,
  wanted: (name: string) => boolean,
  problems: Problem[],
): ReadonlyMap<string, Uint8Array> | undefined {
  try {
    const files = openArchive(bytes, wanted);
    const texts = [...(files?.values() ?? [])].map((content) => new TextDecoder().decode(content));
    if (files !== undefined && texts.every(tagsEnd)) return files;
    problems.push({ file, found: foundInstead(bytes), expected: 'a workbook in .xlsx format that opens' });
  } catch (error) {
    if (!(error instanceof ArchiveTooLargeError)) throw error;
    const expected = 'tables of at most 128 MB unpacked';
    problems.push({ file, found: 'a workbook whose tables unpack to far more than they can hold', expected });
  }
  return undefined;
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

/** The cells of a sheet, from an archive that holds nothing but what has been looked at; the reader is loaded where there is a workbook. */
async function sheetData(sheet: string, parts: ReadonlyMap<string, Uint8Array>): Promise<SheetData | Error> {
  const { readSheet } = await import('read-excel-file/universal');
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
