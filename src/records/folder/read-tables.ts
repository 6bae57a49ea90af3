import type { Problem } from '../../trial/index.js';
import { checkTable, headerOf } from './check-table.js';
import { decodeText } from './decode-text.js';
import type { FolderContents } from './list-folder.js';
import { parseCsv } from './parse-csv.js';
import { openWorkbook, sheetRecords, type Workbook } from './read-workbook.js';
import type { ReadingNotes } from './reading-notes.js';
import type { Records } from './records.js';
import { sheetsWanted } from './sheets-wanted.js';
import type { Table } from './table.js';
import {
  fileOfSheet,
  gridsFile,
  planLayout,
  type SheetName,
  sheetNames,
  type TableLayout,
  type TableName,
  tableLayouts,
  tableNames,
} from './table-layouts.js';
import { plainNaming, type TableNaming, tableOfSheet } from './table-naming.js';

/** The tables of a trial folder by name, and which of them lie there, be they readable or not. */
export interface FolderTables {
  readonly tables: ReadonlyMap<TableName, Table>;
  /** Readings as a survey writes them down, not yet looked at. */
  readonly grids?: Records;
  readonly present: ReadonlySet<SheetName>;
  /** A workbook that does not open may hold any table. */
  readonly workbookIsSealed: boolean;
}

/** The files of a folder with its workbook opened, so far as it opens. */
export interface OpenFolder {
  readonly contents: FolderContents;
  readonly workbook: Workbook | 'none' | 'sealed';
}

/** Opens the workbook of a folder, once. */
export function openFolder(contents: FolderContents, problems: Problem[]): OpenFolder {
  const { workbook: file, bytes } = contents;
  if (file === undefined) return { contents, workbook: 'none' };
  const content = bytes.get(file);
  return { contents, workbook: (content && openWorkbook(file, content, problems)) ?? 'sealed' };
}

/** The plan as a table, where the folder holds one: it is read before all others, for it may say how they are to be read. */
export async function readPlanRows(
  { contents, workbook }: OpenFolder,
  notes: ReadingNotes,
  problems: Problem[],
): Promise<Table | 'none' | 'unreadable'> {
  const hasCsv = contents.names.includes(planLayout.file);
  const isPlan = (sheet: string) => tableOfSheet(sheet, plainNaming) === 'plan';
  const sheet = typeof workbook === 'string' ? undefined : workbook.sheets.find(({ name }) => isPlan(name));
  if (!hasCsv && sheet === undefined) return 'none';
  const records =
    sheet === undefined || typeof workbook === 'string'
      ? csvRecords(contents, planLayout, problems)
      : (await sheetRecords(workbook, new Map([['plan', sheet]]), problems))?.get('plan');
  const names = { columns: new Map(), ignore: new Set<string>() };
  return (records && checkTable('plan', records, planLayout, names, notes, problems)) ?? 'unreadable';
}

/** Reads every table, from its CSV file or from a sheet of the workbook. */
export async function readTables(
  { contents, workbook }: OpenFolder,
  naming: TableNaming,
  notes: ReadingNotes,
  problems: Problem[],
): Promise<FolderTables> {
  const csv = new Set(sheetNames.filter((name) => contents.names.includes(fileOfSheet(name))));
  const sheets = await sheetsOf(workbook, csv, naming, notes, problems);
  const tables = new Map<TableName, Table>();
  for (const name of tableNames) {
    const layout: TableLayout = tableLayouts[name];
    const records = sheets?.get(name) ?? csvRecords(contents, layout, problems);
    const { ignore, dateOrder } = naming;
    const names = {
      columns: naming.columns.get(name) ?? new Map(),
      ignore,
      ...(dateOrder === undefined ? {} : { dateOrder }),
    };
    const table = records && checkTable(name, records, layout, names, notes, problems);
    if (table !== undefined) tables.set(name, table);
  }
  const grids = sheets?.get('grids') ?? csvRecords(contents, { ...planLayout, file: gridsFile, needed: [] }, problems);
  const present = new Set([...csv, ...(sheets?.keys() ?? [])]);
  return { tables, ...(grids === undefined ? {} : { grids }), present, workbookIsSealed: sheets === undefined };
}

/** The sheet of each table; a table in two places is none. Sheets that are not read are taken down. */
async function sheetsOf(
  workbook: OpenFolder['workbook'],
  csv: ReadonlySet<SheetName>,
  naming: TableNaming,
  notes: ReadingNotes,
  problems: Problem[],
): Promise<ReadonlyMap<SheetName, Records> | undefined> {
  if (workbook === 'none') return new Map();
  if (workbook === 'sealed') return undefined;
  const wanted = sheetsWanted(workbook, csv, naming, notes, problems);
  return sheetRecords(workbook, wanted, problems);
}

function csvRecords({ bytes }: FolderContents, layout: TableLayout, problems: Problem[]): Records | undefined {
  const content = bytes.get(layout.file);
  const text = content && decodeText(layout.file, content, headerOf(layout), problems);
  return text === undefined ? undefined : parseCsv(text, layout, problems);
}
