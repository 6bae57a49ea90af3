import { access, constants, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { present } from '../../plain/present.js';
import { type Problem, type Problems, type SensorLog, TrialFolderError } from '../../trial/index.js';
import { whyUnreadable } from '../folder/why-unreadable.js';
import { msInMinute } from './days.js';
import { enginePath, withoutPatterns } from './engine-path.js';
import { findDrift } from './find-drift.js';
import { hasUnlikeLineEnds, withLineFeeds } from './line-ends.js';
import { logFaults, unreadableLog } from './log-faults.js';
import { faultCountQuery, numbersQuery, placeOf, rowState, sensorsType, stateOf } from './log-query.js';
import {
  type Columns,
  csvSource,
  endOfLog,
  type LogFile,
  type LogSource,
  literal,
  parquetSource,
  typeOfTime,
} from './log-source.js';
import { type Engine, openEngine, SensorLogEngineError } from './open-engine.js';
import { sensorRecord } from './sensor-record.js';
import { type TrackedSensor, trackSensor } from './sensor-track.js';

export interface SensorLogOptions {
  /** Threads of the reading engine. Default: 2. The digits do not depend on it. */
  readonly threads?: number;
  /** Called now and then with the rows read so far. */
  readonly onProgress?: (rows: number) => void;
}

export type SensorLogCheck =
  | { readonly kind: 'log'; readonly log: SensorLog; readonly written: Pick<LogSource, 'separator' | 'decimal'> }
  | { readonly kind: 'problems'; readonly problems: Problems };

/**
 * Reads a log of embedded sensors, `time, sensor, value`, from a CSV or Parquet file of any length in one pass: daily
 * means with their coverage, and gaps, stuck values, spikes, steps and drift, found and counted. The log is never held
 * in memory. Sums are made in order of time and keep twice the digits of a number, so that the same log gives the same digits
 * on any number of threads.
 *
 * Gap: a spacing of more than 1.5 of the sensor's intervals (the median). Stuck: the same value for at least a day and 12
 * readings, and 5 times as long as the sensor's other runs. Spike: a step of more than 10 typical steps (the median of those
 * that are not 0) that goes back at once; one that does not is a step. Drift: see `SensorDrift`.
 *
 * @param sensors the sensors that have a place; a further name in the log is a problem.
 * @throws TrialFolderError with every row that cannot be read (the first hundred of them, and how many more)
 * @throws SensorLogEngineError where the package `@duckdb/node-api` cannot be loaded
 * @example
 * const sensors = Array.from({ length: 20 }, (_, at) => `P${String(at + 1).padStart(2, '0')}`);
 * (await readSensorLog('datasets/water-up-a-wall/sensors.csv', sensors)).sensors[0].days[0].mean // 9.7
 */
export async function readSensorLog(
  path: string,
  sensors: readonly string[],
  options: SensorLogOptions = {},
): Promise<SensorLog> {
  const check = await checkSensorLog(path, sensors, options);
  if (check.kind === 'problems') throw new TrialFolderError(check.problems);
  return check.log;
}

/** Like `readSensorLog`, with the problems as a value. */
export async function checkSensorLog(
  path: string,
  sensors: readonly string[],
  { threads = 2, onProgress = () => {} }: SensorLogOptions = {},
): Promise<SensorLogCheck> {
  const problem = await unopenable(path);
  if (problem !== undefined) return refused([problem]);
  const engine = await openEngine(threads);
  try {
    const log = { path, name: basename(path), enginePath: await enginePath(path, engine.scratch) };
    const names = [...new Set(sensors)].filter((name) => name !== endOfLog);
    const check = await checkLog(engine, log, names, onProgress);
    if (check.kind === 'log' || path.endsWith('.parquet') || !(await hasUnlikeLineEnds(path))) return check;
    const copy = join(engine.scratch, 'line-feeds');
    await withLineFeeds(path, copy);
    return await checkLog(engine, { ...log, path: copy, enginePath: withoutPatterns(copy) }, names, onProgress);
  } finally {
    await engine.close();
  }
}

/** What is no file, such as a folder or a pipe that never ends, is left alone. */
async function unopenable(path: string): Promise<Problem | undefined> {
  const at = { file: basename(path), expected: 'a log with the columns time, sensor, value' };
  try {
    const facts = await stat(path);
    if (!facts.isFile()) return { ...at, found: 'something that is not a file' };
    if (facts.size === 0) return { ...at, found: 'an empty file' };
    await access(path, constants.R_OK);
    return undefined;
  } catch (error) {
    return { ...at, found: whyUnreadable(error) };
  }
}

async function checkLog(
  engine: Engine,
  log: LogFile,
  names: readonly string[],
  onProgress: (rows: number) => void,
): Promise<SensorLogCheck> {
  const problems: Problem[] = [];
  const file = log.name;
  try {
    await engine.run(sensorsType(names));
    const source = await sourceOf(engine, log, problems);
    if (source === undefined) return refused(problems);
    const read =
      (await onePass(engine, source, names, 'in-order', onProgress)) ??
      (await onePass(engine, source, names, 'sorted', onProgress));
    if (read !== undefined && read.rows > 0 && read.wrong === 0 && read.ends === 1) {
      return { kind: 'log', log: logOf(file, source, names, read), written: writtenAs(source) };
    }
    if (read?.rows === 0) problems.push({ file, found: 'a header and no rows', expected: 'at least one reading' });
    else problems.push(...(await logFaults(engine, source, file, names)));
    if (problems.length === 0) problems.push(await endedEarly(engine, source, file, read));
  } catch (error) {
    if (error instanceof SensorLogEngineError) throw error;
    problems.push(unreadableLog(error, log));
  }
  return refused(problems);
}

async function sourceOf(engine: Engine, log: LogFile, problems: Problem[]): Promise<LogSource | undefined> {
  if (!log.name.endsWith('.parquet')) return csvSource(log, engine.scratch, problems);
  // Else a folder `value=3` above the file would take the place of its column.
  const table = `read_parquet(${literal(log.enginePath)}, hive_partitioning = false)`;
  const described = await engine.rows(`DESCRIBE SELECT * FROM ${table}`);
  const columns: Columns = described.map((row) => ({ name: String(row.column_name), type: String(row.column_type) }));
  const first = typeOfTime(columns) === 'VARCHAR' ? await engine.rows(`SELECT time FROM ${table} LIMIT 1000`) : [];
  const stamps = first.map(({ time }) => String(time ?? ''));
  return parquetSource(table, log.name, columns, stamps, problems);
}

/** Rows were lost, or the mark of the end stands among them. An answer that is not streamed says what the engine met. */
async function endedEarly(engine: Engine, source: LogSource, file: string, read: Pass | undefined): Promise<Problem> {
  await engine.rows(faultCountQuery(source));
  if ((read?.ends ?? 0) > 1) {
    const expected = 'a sensor that stations.csv gives a place';
    return { file, column: 'sensor', found: 'the control character U+0004', expected };
  }
  return { file, found: `that it cannot be read beyond row ${(read?.rows ?? 0) + 1}`, expected: 'a log that is whole' };
}

interface Pass {
  readonly order: SensorLog['order'];
  readonly tracks: readonly TrackedSensor[];
  /** Marks of the log's end that were met. */
  ends: number;
  rows: number;
  wrong: number;
  missing: number;
  belowDetection: number;
}

/** @returns nothing where a sensor's rows turn out not to stand in order of time. */
async function onePass(
  engine: Engine,
  source: LogSource,
  names: readonly string[],
  order: SensorLog['order'],
  onProgress: (rows: number) => void,
): Promise<Pass | undefined> {
  const pass: Pass = {
    order,
    tracks: names.map(() => trackSensor(source.clock)),
    ends: 0,
    rows: 0,
    wrong: 0,
    missing: 0,
    belowDetection: 0,
  };
  for await (const piece of engine.pieces(numbersQuery(source, order), order)) {
    if (!takeIn(pass, piece)) return undefined;
    onProgress(pass.rows);
  }
  for (const { close } of pass.tracks) close();
  return pass;
}

function takeIn(pass: Pass, { count, columns }: { count: number; columns: readonly Float64Array[] }): boolean {
  const [codes, locals, values, ahead, rows] = columns as readonly [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array?,
    Float64Array?,
  ];
  for (let at = 0; at < count; at++) {
    const code = codes[at] as number;
    if (placeOf(code) === pass.tracks.length) {
      pass.ends++;
      continue;
    }
    const row = rows === undefined ? pass.rows + 1 : (rows[at] as number);
    pass.rows++;
    const state = stateOf(code);
    if (state === rowState.reading) {
      const track = pass.tracks[placeOf(code)] as TrackedSensor;
      const local = locals[at] as number;
      const instant = ahead === undefined ? local : local - msInMinute * (ahead[at] as number);
      // The header is row 1.
      if (!track.add(instant, local, values[at] as number, row + 1)) return false;
    } else if (state === rowState.missing) pass.missing++;
    else if (state === rowState.belowDetection) pass.belowDetection++;
    else pass.wrong++;
  }
  return true;
}

function logOf(file: string, { clock }: LogSource, names: readonly string[], pass: Pass): SensorLog {
  const tracks = pass.tracks.map(({ track }) => track);
  const records = tracks.map((track, index) => sensorRecord(names[index] as string, track));
  const drifts = findDrift(records);
  const { rows, missing, belowDetection, order } = pass;
  return {
    file,
    rows,
    leftOut: {
      missing,
      belowDetection,
      repeated: tracks.reduce((sum, track) => sum + track.repeated, 0),
      contradicting: tracks.reduce((sum, track) => sum + track.contradicting, 0),
    },
    clock,
    order,
    sensors: records.map((record, index) => {
      const drift = drifts[index];
      return drift === undefined ? record : { ...record, drift };
    }),
  };
}

function writtenAs({ separator, decimal }: LogSource) {
  return { ...present({ separator, decimal }) };
}

function refused([first, ...others]: readonly Problem[]): SensorLogCheck {
  if (first === undefined) throw new Error('a sensor log was refused without a reason');
  return { kind: 'problems', problems: [first, ...others] };
}
