import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import {
  leastCoverage,
  type Problem,
  type Reading,
  type SensorLog,
  type SourceFile,
  type Station,
} from '../../trial/index.js';
import type { ProtocolFindings } from '../protocol/findings.js';
import { placeSensors } from './place-sensors.js';
import { checkSensorLog, type SensorLogOptions } from './read-sensor-log.js';

const logFiles = ['sensors.csv', 'sensors.parquet'] as const;

/** What a trial takes from its log: daily means as readings of the embedded sensors, and the log's own story. */
export interface LogOfTrial {
  readonly log: SensorLog;
  readonly readings: readonly Reading[];
  readonly source: SourceFile;
  /** SHA-256 of the file, which is never held in memory. */
  readonly digest: string;
}

/** Whether a folder holds a log, be it readable or not. */
export function hasSensorLog(names: readonly string[]): boolean {
  return logFiles.some((file) => names.includes(file));
}

/**
 * Reads the log of a trial folder, where it holds one. A sensor's mean of a day becomes a reading of the one instrument of kind
 * `embedded-sensor` at the sensor's station; days with less than three quarters of their readings stay out.
 */
export async function logOfTrial(
  folder: string,
  names: readonly string[],
  stations: readonly Station[],
  findings: ProtocolFindings,
  problems: Problem[],
  options: SensorLogOptions,
): Promise<LogOfTrial | undefined> {
  const [file, second] = logFiles.filter((name) => names.includes(name));
  if (file === undefined) return undefined;
  if (second !== undefined) {
    problems.push({ file: second, found: `a second log beside ${file}`, expected: 'one of the two' });
    return undefined;
  }
  const instrument = sensorInstrument(findings);
  const places = placeSensors(stations, file, problems);
  if (places.size === 0) {
    const expected = `a table that gives each sensor of ${file} its place: station, wall, sensor, height_mm`;
    if (!names.includes('stations.csv')) problems.push({ file: 'stations.csv', found: 'no such file', expected });
    return undefined;
  }
  const path = join(folder, file);
  const check = await checkSensorLog(path, [...places.keys()], options);
  if (check.kind === 'problems') {
    problems.push(...check.problems);
    return undefined;
  }
  if (instrument === undefined) return undefined;
  const { log, written } = check;
  return {
    log,
    readings: readingsOf(log, places, instrument),
    source: { file, rows: log.rows, ...written },
    digest: await digestOf(path),
  };
}

function sensorInstrument({ instruments, refuseKey }: ProtocolFindings): string | undefined {
  const embedded = instruments?.filter(({ kind }) => kind === 'embedded-sensor') ?? [];
  if (instruments !== undefined && embedded.length !== 1) {
    const found = embedded.length === 0 ? 'no instrument of kind embedded-sensor' : `${embedded.length} of that kind`;
    refuseKey('instruments', found, 'exactly one of kind embedded-sensor, as there is a sensor log');
  }
  return embedded.length === 1 ? embedded[0]?.instrument : undefined;
}

function readingsOf(log: SensorLog, places: ReadonlyMap<string, Station>, instrument: string): Reading[] {
  return log.sensors.flatMap(({ sensor, days }) => {
    const place = places.get(sensor);
    if (place === undefined) return [];
    return days
      .filter(({ coverage }) => coverage >= leastCoverage)
      .map(({ day, mean, row }) => ({
        date: day,
        wall: place.wall,
        station: place.station,
        instrument,
        value: { kind: 'measured', value: mean },
        origin: { file: log.file, row },
      }));
  });
}

async function digestOf(path: string): Promise<string> {
  const hash = createHash('sha256');
  await pipeline(createReadStream(path), hash);
  return hash.digest('hex');
}
