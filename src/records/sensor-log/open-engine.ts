import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { DuckDBDataChunk } from '@duckdb/node-api';
import type bindingsOf from '@duckdb/node-bindings';
import { literal } from './log-source.js';

type Bindings = typeof bindingsOf;

/** Columns of numbers, some thousand rows at a time; a number that is missing may come out as any. */
interface NumberRows {
  readonly count: number;
  readonly columns: readonly Float64Array[];
}

/** The embedded database, as far as logs need it. */
export interface Engine {
  /** A folder for files that go with the engine. */
  readonly scratch: string;
  run(statement: string): Promise<void>;
  /** All rows of a short answer, as texts and numbers. */
  rows(query: string): Promise<readonly Readonly<Record<string, unknown>>[]>;
  /** A long answer whose columns are all of type DOUBLE, in the order that the query states, piece by piece. */
  pieces(query: string, order: keyof typeof waiting): AsyncGenerator<NumberRows>;
  close(): Promise<void>;
}

/** Thrown where the machine keeps a log from being read: the embedded database cannot be loaded, or memory or disk are wanting. */
export class SensorLogEngineError extends Error {
  override readonly name = 'SensorLogEngineError' as const;
}

/** What the engine may hold of a log at a time for each thread; beyond, it sorts on disk. */
const megabytes = 35;
/**
 * Answers that wait to be taken. While rows come straight from the file the engine's threads go on reading as those before are
 * looked at here; while they come from a sort there is nothing to gain, and the sort needs the room.
 */
const waiting = { 'in-order': '16MB', sorted: '1MB' } as const;

/**
 * Starts the embedded database. It is large, and so loaded only where there is a log; and it never fetches anything.
 *
 * @param threads never change a digit: the engine hands rows over in order, and all sums are made here.
 */
export async function openEngine(threads: number): Promise<Engine> {
  const [{ DuckDBInstance }, { default: bindings }] = await Promise.all([
    import('@duckdb/node-api'),
    import('@duckdb/node-bindings'),
  ]).catch((error: unknown) => {
    throw new SensorLogEngineError(
      `a sensor log is read with the package @duckdb/node-api, which cannot be loaded here: ${error instanceof Error ? error.message : String(error)}`,
    );
  });
  const scratch = await scratchFolder();
  const instance = await DuckDBInstance.create(':memory:', {
    threads: `${threads}`,
    memory_limit: `${megabytes * Math.max(2, threads)}MB`,
    autoinstall_known_extensions: 'false',
    autoload_known_extensions: 'false',
    preserve_insertion_order: 'true',
    temp_directory: scratch,
  });
  const connection = await instance.connect();
  return {
    scratch,
    async run(statement) {
      await connection.run(statement);
    },
    async rows(query) {
      return (await connection.runAndReadAll(query)).getRowObjectsJS();
    },
    async *pieces(query, order) {
      await connection.run(`SET streaming_buffer_size = ${literal(waiting[order])}`);
      const result = await connection.stream(query);
      // The next piece is fetched while the one before is looked at.
      let next = result.fetchChunk();
      try {
        for (;;) {
          const chunk = await next;
          if (chunk === null || chunk.rowCount === 0) return;
          next = result.fetchChunk();
          yield numbersOf(chunk, bindings);
        }
      } finally {
        await next.catch(() => undefined);
      }
    },
    async close() {
      connection.closeSync();
      instance.closeSync();
      await rm(scratch, { recursive: true, force: true });
    },
  };
}

async function scratchFolder(): Promise<string> {
  try {
    return await mkdtemp(join(tmpdir(), 'sensor-log-'));
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : String(error);
    throw new SensorLogEngineError(
      `a sensor log is read with the help of a temporary folder, and none can be made in ${tmpdir()} (${code}); the environment variable TMPDIR may name another place`,
    );
  }
}

/** The numbers as they lie in memory: taking them out one by one would double the time. */
function numbersOf({ chunk, rowCount, columnCount }: DuckDBDataChunk, bindings: Bindings): NumberRows {
  const columns = Array.from({ length: columnCount }, (_, at) => {
    const bytes = bindings.vector_get_data(bindings.data_chunk_get_vector(chunk, at), 8 * rowCount);
    return new Float64Array(bytes.buffer, bytes.byteOffset, rowCount);
  });
  return { count: rowCount, columns };
}
