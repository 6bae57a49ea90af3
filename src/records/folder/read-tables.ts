import type { Problem } from '../../trial/index.js';
import { checkTable, headerOf } from './check-table.js';
import { decodeText } from './decode-text.js';
import type { FolderContents } from './list-folder.js';
import { parseCsv } from './parse-csv.js';
import { readWorkbook } from './read-workbook.js';
import type { Records } from './records.js';
import type { Table } from './table.js';
import { type TableLayout, type TableName, tableLayouts, tableNames } from './table-layouts.js';

/** The tables of a trial folder by name, and which of them lie there, be they readable or not. */
export interface FolderTables {
  readonly tables: ReadonlyMap<TableName, Table>;
  readonly present: ReadonlySet<TableName>;
  /** A workbook that does not open may hold any table. */
  readonly workbookIsSealed: boolean;
}

/** Reads every table, from its CSV file or from a sheet of the workbook. */
export async function readTables(contents: FolderContents, problems: Problem[]): Promise<FolderTables> {
  const csv = new Set(tableNames.filter((name) => contents.names.includes(tableLayouts[name].file)));
  const sheets = await sheetsOf(contents, csv, problems);
  const tables = new Map<TableName, Table>();
  for (const name of tableNames) {
    const layout: TableLayout = tableLayouts[name];
    const records = sheets?.get(name) ?? csvRecords(contents, layout, problems);
    const table = records && checkTable(records, layout, problems);
    if (table !== undefined) tables.set(name, table);
  }
  const present = new Set([...csv, ...(sheets?.keys() ?? [])]);
  return { tables, present, workbookIsSealed: sheets === undefined };
}

async function sheetsOf(
  { workbook, bytes }: FolderContents,
  csv: ReadonlySet<TableName>,
  problems: Problem[],
): Promise<ReadonlyMap<TableName, Records> | undefined> {
  if (workbook === undefined) return new Map();
  const content = bytes.get(workbook);
  return content && readWorkbook(workbook, content, csv, problems);
}

function csvRecords({ bytes }: FolderContents, layout: TableLayout, problems: Problem[]): Records | undefined {
  const content = bytes.get(layout.file);
  const text = content && decodeText(layout.file, content, headerOf(layout), problems);
  return text === undefined ? undefined : parseCsv(text, layout, problems);
}
