import { open, stat } from 'node:fs/promises';
import { join } from 'node:path';

const sample_bytes = 65_536;
/** A row of a Parquet file takes about so many bytes; for a bar that is enough. */
const bytesOfParquetRow = 4;

/** About how many rows the sensor log of a folder holds, from its size and its first rows; undefined where there is none. */
export async function rowsOfLog(folder: string): Promise<number | undefined> {
  const csv = await sizeOf(join(folder, 'sensors.csv'));
  if (csv !== undefined) {
    const start = await startOf(join(folder, 'sensors.csv'));
    const rows = start.filter((byte) => byte === 0x0a).length;
    return rows === 0 ? undefined : Math.round((csv * rows) / start.length);
  }
  const parquet = await sizeOf(join(folder, 'sensors.parquet'));
  return parquet === undefined ? undefined : Math.round(parquet / bytesOfParquetRow);
}

async function sizeOf(path: string): Promise<number | undefined> {
  try {
    return (await stat(path)).size;
  } catch {
    return undefined;
  }
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
