import { open, stat } from 'node:fs/promises';
import { join } from 'node:path';

const sample_bytes = 65_536;
/** A row of a Parquet file takes about so many bytes; for a bar that is enough. */
const bytesOfParquetRow = 4;

/**
 * About how many rows the sensor log of a folder holds, from its size and its first rows; undefined where there is none, or none that can
 * be read: whoever reads the log will say why.
 */
export async function rowsOfLog(folder: string): Promise<number | undefined> {
  try {
    return (await rowsOfCsv(join(folder, 'sensors.csv'))) ?? (await rowsOfParquet(join(folder, 'sensors.parquet')));
  } catch {
    return undefined;
  }
}

async function rowsOfCsv(path: string): Promise<number | undefined> {
  const size = await sizeOf(path);
  if (size === undefined) return undefined;
  const start = await startOf(path);
  const rows = start.filter((byte) => byte === 0x0a).length;
  return rows === 0 ? undefined : Math.round((size * rows) / start.length);
}

async function rowsOfParquet(path: string): Promise<number | undefined> {
  const size = await sizeOf(path);
  return size === undefined ? undefined : Math.round(size / bytesOfParquetRow);
}

/** Of what is no file, such as a pipe, there is no size, and to open it may take for ever. */
async function sizeOf(path: string): Promise<number | undefined> {
  const facts = await stat(path).catch(() => undefined);
  return facts?.isFile() === true ? facts.size : undefined;
}

async function startOf(path: string): Promise<Uint8Array> {
  const file = await open(path);
  try {
    const { buffer, bytesRead } = await file.read(new Uint8Array(sample_bytes), 0, sample_bytes, 0);
    return buffer.subarray(0, bytesRead);
  } finally {
    await file.close();
  }
}
