import { open, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import Papa from 'papaparse';
import { present } from '../../plain/present.js';
import type { Problem } from '../../trial/index.js';
import { type DecimalMark, decimalMark } from '../folder/decimal-mark.js';
import { quoted } from '../quoted.js';
import { withoutPatterns } from './engine-path.js';

/** How a log is read: where its three columns come from, as texts, and how they are written. */
export interface LogSource {
  /** A query that gives `time`, `sensor` and `value` as texts. */
  readonly query: string;
  /** The same with a further row at the end, whose sensor is `endOfLog`. */
  readonly withEnd: string;
  readonly clock: 'with-zone' | 'without-zone';
  readonly separator?: 'comma' | 'semicolon';
  readonly decimal?: DecimalMark;
}

/** What the engine finds in a Parquet file: its columns with their types. */
export type Columns = readonly { readonly name: string; readonly type: string }[];

const needed = ['time', 'sensor', 'value'] as const;
const expectedHeader = `a header row with at least the columns ${needed.join(', ')}`;
/** Enough lines to tell how a log is written. */
const headBytes = 65_536;
/** Each thread of the engine holds some of these at a time. */
const bufferBytes = 2_000_000;

/**
 * A sensor that no log has (the sign for the end of a transmission). Where the engine meets a row that it cannot split, its stream ends early and
 * in silence: only a mark after the last row tells that nothing was lost.
 */
export const endOfLog = '\u0004';

const zone = /:\d{2}.*(?:Z|[+-]\d{2}:?\d{2})$/;

/** Where the engine finds a log, and how problems name it. */
export interface LogFile {
  /** As any program opens it. */
  readonly path: string;
  /** As the engine opens it. */
  readonly enginePath: string;
  readonly name: string;
}

/**
 * Finds out from the first lines of a CSV file how it is written. Nothing where it cannot be read as a log.
 *
 * @param scratch a folder for a file with the mark of the log's end, which the engine reads after the log: a union of two queries would
 *   cost it its second thread
 */
export async function csvSource(log: LogFile, scratch: string, problems: Problem[]): Promise<LogSource | undefined> {
  const file = log.name;
  const { blankLines, lines } = await headOf(log.path);
  const header = lines[0];
  if (header === undefined) {
    problems.push({ file, found: 'an empty file', expected: expectedHeader });
    return undefined;
  }
  const separator = [',', ';'].find((mark) => (cellsOf([header], mark)[0]?.length ?? 0) > 1);
  if (separator === undefined) {
    const found = header.includes('\t') ? 'tabs between the cells' : `the header ${quoted(header)}`;
    problems.push({ file, row: 1, found, expected: `${expectedHeader}, and commas or semicolons between the cells` });
    return undefined;
  }
  const [columns = [], ...rows] = cellsOf(lines, separator);
  if (!checkColumns(columns, file, problems)) return undefined;
  const column = (name: string) => rows.map((cells) => cells[columns.indexOf(name)] ?? '');
  const named = separator === ',' ? 'comma' : 'semicolon';
  const decimal = decimalMark(column('value'), named);
  const types = columns.map((_, at) => `${literal(`${at}`)}: 'VARCHAR'`).join(', ');
  const from = (name: string) => `"${columns.indexOf(name)}"`;
  const end = join(scratch, 'end-of-log.csv');
  const mark = columns.map((name) => (name === 'sensor' ? endOfLog : '')).join(separator);
  const blank = columns.map(() => '').join(separator);
  await writeFile(end, [...Array.from({ length: blankLines }, () => ''), blank, mark].join('\n'));
  const query = (
    paths: string,
  ) => `SELECT ${from('time')} AS time, ${from('sensor')} AS sensor, ${from('value')} AS value
      FROM read_csv(${paths}, header = true, auto_detect = false, hive_partitioning = false, skip = ${blankLines},
        delim = '${separator}', quote = '"', escape = '"', buffer_size = ${bufferBytes}, max_line_size = ${bufferBytes / 8},
        columns = {${types}})`;
  return {
    query: query(literal(log.enginePath)),
    withEnd: query(`[${literal(log.enginePath)}, ${literal(withoutPatterns(end))}]`),
    clock: clockOf(column('time')),
    separator: named,
    ...present({ decimal }),
  };
}

/**
 * The query for a Parquet file, whose columns have types of their own.
 *
 * @param table how the engine names the file: `read_parquet(…)`
 * @param stamps the first times, where they are texts
 */
export function parquetSource(
  table: string,
  file: string,
  columns: Columns,
  stamps: readonly string[],
  problems: Problem[],
): LogSource | undefined {
  const names = columns.map(({ name }) => name);
  if (!checkColumns(names, file, problems)) return undefined;
  const isInstant = typeOfTime(columns) === 'TIMESTAMP WITH TIME ZONE';
  // An instant has no wall clock of its own: its day is that of Coordinated Universal Time.
  const time = isInstant ? "make_timestamp(epoch_us(time))::VARCHAR || 'Z'" : 'time::VARCHAR';
  const query = `SELECT ${time} AS time, sensor::VARCHAR AS sensor, value::VARCHAR AS value FROM ${table}`;
  return {
    query,
    withEnd: `${query} UNION ALL SELECT NULL, ${literal(endOfLog)}, NULL`,
    clock: isInstant ? 'with-zone' : clockOf(stamps),
  };
}

export function typeOfTime(columns: Columns): string {
  return columns.find(({ name }) => name === 'time')?.type ?? '';
}

/** As most of the stamps are written: the others are then named one by one. */
function clockOf(stamps: readonly string[]): LogSource['clock'] {
  const zoned = stamps.filter((stamp) => zone.test(stamp)).length;
  return 2 * zoned > stamps.filter((stamp) => stamp !== '').length ? 'with-zone' : 'without-zone';
}

/** A text as the engine's language writes it. */
export function literal(text: string): string {
  return `'${text.replaceAll("'", "''")}'`;
}

function checkColumns(columns: readonly string[], file: string, problems: Problem[]): boolean {
  const wrong = needed.filter((name) => columns.filter((column) => column === name).length !== 1);
  for (const column of wrong) {
    const found = columns.includes(column) ? 'the column more than once' : 'no such column';
    problems.push({ file, row: 1, column, found, expected: expectedHeader });
  }
  return wrong.length === 0;
}

function cellsOf(lines: readonly string[], separator: string): string[][] {
  const { data } = Papa.parse<string[]>(lines.join('\n'), { delimiter: separator, newline: '\n', quoteChar: '"' });
  return data.map((cells) => cells.map((cell) => cell.trim()));
}

/** The first lines from the header on, and how many blank ones stand above it. */
async function headOf(path: string): Promise<{ readonly blankLines: number; readonly lines: readonly string[] }> {
  const handle = await open(path);
  try {
    const { bytesRead, buffer } = await handle.read(Buffer.alloc(headBytes), 0, headBytes, 0);
    const text = buffer.toString('utf8', 0, bytesRead).replace(/^\uFEFF/, '');
    const all = text.split(/\r?\n/);
    // The last line may be cut.
    const lines = bytesRead < headBytes || all.length === 1 ? all : all.slice(0, -1);
    const header = lines.findIndex((line) => line.trim() !== '');
    return header === -1 ? { blankLines: 0, lines: [] } : { blankLines: header, lines: lines.slice(header) };
  } finally {
    await handle.close();
  }
}
