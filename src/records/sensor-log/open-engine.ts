import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { literal } from './log-source.js';

/** Columns of numbers, some thousand rows at a time. */
interface NumberRows {
  readonly count: number;
  readonly columns: readonly (readonly number[])[];
}

/** The embedded database, as far as logs need it. */
export interface Engine {
  run(statement: string): Promise<void>;
  /** All rows of a short answer, as texts and numbers. */
  rows(query: string): Promise<readonly Readonly<Record<string, unknown>>[]>;
  /** A long answer of numbers in the order that the query states, piece by piece. */
  pieces(query: string): AsyncGenerator<NumberRows>;
  close(): Promise<void>;
}

/** Thrown where the embedded database cannot be loaded on this machine. */
export class SensorLogEngineError extends Error {
  override readonly name = 'SensorLogEngineError' as const;
}

/** What the engine may hold of a log at a time; beyond, it sorts on disk. */
const memory = '100MB';

/**
 * Starts the embedded database. It is large, and so loaded only where there is a log; and it never fetches anything.
 *
 * @param threads never change a digit: the engine hands rows over in order, and all sums are made here.
 */
export async function openEngine(threads: number): Promise<Engine> {
  const { DuckDBInstance } = await import('@duckdb/node-api').catch((error: unknown) => {
    throw new SensorLogEngineError(
      `a sensor log is read with the package @duckdb/node-api, which cannot be loaded here: ${error instanceof Error ? error.message : String(error)}`,
    );
  });
  const scratch = await mkdtemp(join(tmpdir(), 'sensor-log-'));
  const instance = await DuckDBInstance.create(':memory:', { threads: `${threads}`, memory_limit: memory });
  const connection = await instance.connect();
  const settings = [
    'autoinstall_known_extensions = false',
    'autoload_known_extensions = false',
    'preserve_insertion_order = true',
    `temp_directory = ${literal(scratch)}`,
  ];
  for (const setting of settings) await connection.run(`SET ${setting}`);
  return {
    async run(statement) {
      await connection.run(statement);
    },
    async rows(query) {
      return (await connection.runAndReadAll(query)).getRowObjectsJS();
    },
    async *pieces(query) {
      const result = await connection.stream(query);
      for (;;) {
        const chunk = await result.fetchChunk();
        if (chunk === null || chunk.rowCount === 0) return;
        const columns = chunk.getColumns() as unknown as number[][];
        yield { count: chunk.rowCount, columns };
      }
    },
    async close() {
      connection.closeSync();
      instance.closeSync();
      await rm(scratch, { recursive: true, force: true });
    },
  };
}
