import type { MoistureReading } from '../moisture/index.js';
import { mean } from '../statistics/index.js';
import { isInWindow, type Trial } from '../trial/index.js';
import { comparisonSides } from './comparison-sides.js';
import type { LeftOutReadings, LeftOutWall, StationChange } from './wall-change.js';

export interface StationChanges {
  readonly stations: readonly StationChange[];
  /** The outcome readings behind those stations that have both a before and an after value. */
  readonly used: readonly MoistureReading[];
  readonly leftOut: readonly LeftOutReadings[];
}

interface SortedReading {
  readonly reading: MoistureReading;
  readonly value: number;
  readonly window: 'before' | 'after';
}

/**
 * Step 1 of the primary analysis: a station's before value is the mean of its readings by the outcome's instrument
 * inside the before window, after likewise. Whatever does not enter is counted by reason.
 *
 * @example stationChanges(trial, readings).stations[0].before // 11.54
 */
export function stationChanges(trial: Trial, readings: readonly MoistureReading[]): StationChanges {
  const leftOut = new Map<string, MoistureReading[]>();
  const leave = (reading: MoistureReading, reason: string) => addTo(leftOut, reason, reading);
  // Walls inside walls' stations: this runs once for each choice that is tried, and compound keys would cost most of it.
  const byWall = new Map<string, Map<string, SortedReading[]>>();
  const inOrder: SortedReading[][] = [];
  const reasonAgainst = reasonsAgainst(trial);
  for (const reading of readings) {
    const verdict = reasonAgainst(reading);
    if (typeof verdict === 'string') {
      leave(reading, verdict);
      continue;
    }
    const own = stationsOf(byWall, reading.wall);
    const sorted = own.get(reading.station);
    if (sorted !== undefined) sorted.push(verdict);
    else inOrder.push(first(own, reading.station, verdict));
  }
  const placed = placesOfStations(trial);
  const stations: StationChange[] = [];
  const used: MoistureReading[] = [];
  for (const sorted of inOrder) {
    const { wall = '', station = '' } = sorted[0]?.reading ?? {};
    const before = meanIn(sorted, 'before');
    const after = meanIn(sorted, 'after');
    stations.push({ wall, station, ...placed.get(wall)?.get(station), ...before, ...after });
    if (before.before !== undefined && after.after !== undefined) for (const { reading } of sorted) used.push(reading);
    else for (const { reading, window } of sorted) leave(reading, `its station has no ${otherThan(window)} value`);
  }
  return {
    stations,
    used,
    leftOut: [...leftOut].map(([reason, list]) => countedWithOrigins(reason, list)),
  };
}

/**
 * The same, without the readings of walls that the design of the comparison had to leave out.
 *
 * @example withoutWalls(changes, [{ wall: 'W01', reason: 'its pair is missing' }]).leftOut.at(-1).reason // 'its wall has none to be compared with'
 */
export function withoutWalls(changes: StationChanges, walls: readonly LeftOutWall[]): StationChanges {
  const gone = new Set(walls.map(({ wall }) => wall));
  const dropped = changes.used.filter(({ wall }) => gone.has(wall));
  if (dropped.length === 0) return changes;
  return {
    stations: changes.stations,
    used: changes.used.filter(({ wall }) => !gone.has(wall)),
    leftOut: [...changes.leftOut, countedWithOrigins('its wall has none to be compared with', dropped)],
  };
}

/** The reading's value and window, or why it cannot enter. */
function reasonsAgainst(trial: Trial): (reading: MoistureReading) => SortedReading | string {
  const { outcome, windows } = trial.protocol;
  const sides = comparisonSides(trial.protocol);
  const compared = new Set(trial.walls.filter(({ arm }) => sides.has(arm)).map(({ wall }) => wall));
  return (reading) => {
    if (reading.instrument !== outcome.instrument)
      return `read with ${reading.instrument}, which is not the outcome’s instrument`;
    if (!compared.has(reading.wall)) return 'its wall stands in no arm of the primary comparison';
    if (reading.value.kind === 'missing') return 'no value recorded';
    if (reading.value.kind === 'below-detection') return 'below the detection limit, so not a number';
    if (windows === undefined) return 'the protocol states no windows';
    const { value } = reading.value;
    if (isInWindow(reading.day, windows.before)) return { reading, value, window: 'before' };
    if (isInWindow(reading.day, windows.after)) return { reading, value, window: 'after' };
    return 'outside the before and the after window';
  };
}

function otherThan(window: 'before' | 'after'): string {
  return window === 'before' ? 'after' : 'before';
}

function meanIn<W extends 'before' | 'after'>(
  sorted: readonly SortedReading[],
  window: W,
): { readonly [K in W]?: number } {
  const values = sorted.filter((one) => one.window === window).map(({ value }) => value);
  return (values.length === 0 ? {} : { [window]: mean(values) }) as {
    readonly [K in W]?: number;
  };
}

interface Place {
  readonly height_mm?: number;
  readonly depth_mm?: number;
}

function placesOfStations(trial: Trial): ReadonlyMap<string, ReadonlyMap<string, Place>> {
  const byWall = new Map<string, Map<string, Place>>();
  for (const { wall, station, height_mm, depth_mm } of trial.stations)
    stationsOf(byWall, wall).set(station, {
      ...(height_mm === undefined ? {} : { height_mm }),
      ...(depth_mm === undefined ? {} : { depth_mm }),
    });
  return byWall;
}

function stationsOf<T>(byWall: Map<string, Map<string, T>>, wall: string): Map<string, T> {
  const known = byWall.get(wall);
  if (known !== undefined) return known;
  const stations = new Map<string, T>();
  byWall.set(wall, stations);
  return stations;
}

function first(stations: Map<string, SortedReading[]>, station: string, sorted: SortedReading): SortedReading[] {
  const list = [sorted];
  stations.set(station, list);
  return list;
}

function countedWithOrigins(reason: string, readings: readonly MoistureReading[]): LeftOutReadings {
  return {
    reason,
    count: readings.length,
    origins: readings.map(({ origin }) => origin),
  };
}

function addTo<T>(map: Map<string, T[]>, key: string, item: T): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [item]);
  else list.push(item);
}
