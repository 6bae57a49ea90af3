import { open, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Problem } from '../../trial/index.js';
import { type DecimalMark, decimalMark } from '../folder/decimal-mark.js';

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

/**
 * Finds out from the first lines of a CSV file how it is written. Nothing where it cannot be read as a log.
 *
 * @param scratch a folder for a file with the mark of the log's end, which the engine reads after the log: a union of two queries would
 *   cost it its second thread
 */
export async function csvSource(
  path: string,
  file: string,
  scratch: string,
  problems: Problem[],
): Promise<LogSource | undefined> {
  const lines = await headOf(path);
  const header = lines[0] ?? '';
  if (header.trim() === '') {
    problems.push({ file, found: 'an empty file', expected: expectedHeader });
    return undefined;
  }
  const separator = [',', ';'].find((mark) => cellsOf(header, mark).length > 1);
  if (separator === undefined) {
    const found = header.includes('\t')
      ? 'tabs between the cells'
      : `the header ${JSON.stringify(header.slice(0, 60))}`;
    problems.push({ file, row: 1, found, expected: `${expectedHeader}, and commas or semicolons between the cells` });
    return undefined;
  }
  const columns = cellsOf(header, separator);
  if (!checkColumns(columns, file, problems)) return undefined;
  const rows = lines.slice(1).map((line) => cellsOf(line, separator));
  const column = (name: string) => rows.map((cells) => cells[columns.indexOf(name)] ?? '');
  const named = separator === ',' ? 'comma' : 'semicolon';
  const decimal = decimalMark(column('value'), named);
  const types = columns.map((name, at) => `${literal(`${at}:${name}`)}: 'VARCHAR'`).join(', ');
  const from = (name: string) => `"${`${columns.indexOf(name)}:${name}`}"`;
  const value = decimal === 'comma' ? `replace(${from('value')}, ',', '.')` : from('value');
  const end = join(scratch, 'end-of-log.csv');
  await writeFile(
    end,
    [columns, columns.map((name) => (name === 'sensor' ? endOfLog : ''))]
      .map((cells) => cells.join(separator))
      .join('\n'),
  );
  const query = (paths: string) => `SELECT ${from('time')} AS time, ${from('sensor')} AS sensor, ${value} AS value
      FROM read_csv(${paths}, header = true, auto_detect = false, delim = '${separator}', quote = '"',
        escape = '"', buffer_size = ${bufferBytes}, max_line_size = ${bufferBytes / 8}, columns = {${types}})`;
  return {
    query: query(literal(path)),
    withEnd: query(`[${literal(path)}, ${literal(end)}]`),
    clock: clockOf(column('time')),
    separator: named,
    ...(decimal === undefined ? {} : { decimal }),
  };
}

/** The query for a Parquet file, whose columns have types of their own. */
export function parquetSource(
  path: string,
  file: string,
  columns: Columns,
  problems: Problem[],
): LogSource | undefined {
  const names = columns.map(({ name }) => name);
  if (!checkColumns(names, file, problems)) return undefined;
  const typeOfTime = columns.find(({ name }) => name === 'time')?.type ?? '';
  const isInstant = typeOfTime === 'TIMESTAMP WITH TIME ZONE';
  // An instant has no wall clock of its own: its day is that of Coordinated Universal Time.
  const time = isInstant ? "make_timestamp(epoch_us(time))::VARCHAR || 'Z'" : 'time::VARCHAR';
  const query = `SELECT ${time} AS time, sensor::VARCHAR AS sensor, value::VARCHAR AS value FROM read_parquet(${literal(path)})`;
  return {
    query,
    withEnd: `${query} UNION ALL SELECT NULL, ${literal(endOfLog)}, NULL`,
    clock: isInstant ? 'with-zone' : 'without-zone',
  };
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

function cellsOf(line: string, separator: string): string[] {
  return line.split(separator).map((cell) => cell.trim().replace(/^"(.*)"$/, '$1'));
}

async function headOf(path: string): Promise<string[]> {
  const handle = await open(path);
  try {
    const { bytesRead, buffer } = await handle.read(Buffer.alloc(headBytes), 0, headBytes, 0);
    const text = buffer.toString('utf8', 0, bytesRead).replace(/^\uFEFF/, '');
    const lines = text.split(/\r?\n/);
    // The last line may be cut.
    return bytesRead < headBytes ? lines : lines.slice(0, -1);
  } finally {
    await handle.close();
  }
}
