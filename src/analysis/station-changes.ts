import type { MoistureReading } from '../moisture/index.js';
import { addTo, type Group, groupBy } from '../plain/group-by.js';
import { present } from '../plain/present.js';
import { mean } from '../statistics/index.js';
import { type DayOfWall, daySorter, type Trial } from '../trial/index.js';
import { comparesAfterAlone } from './after-alone.js';
import { comparedStations } from './compared-stations.js';
import { comparisonSides } from './comparison-sides.js';
import type { LeftOutReadings, LeftOutWall, ReadingLeftOut, StationChange } from './wall-change.js';

export interface StationChanges {
  readonly stations: readonly StationChange[];
  /** The outcome readings behind the walls' changes. */
  readonly used: readonly MoistureReading[];
  readonly leftOut: readonly LeftOutReadings[];
}

/** What was read at a station, in the order of the readings. */
interface ReadStation {
  readonly wall: string;
  readonly station: string;
  readonly readings: SortedReading[];
  readonly before: number[];
  readonly after: number[];
}

interface SortedReading {
  readonly reading: MoistureReading;
  readonly value: number;
  readonly window: 'before' | 'after';
}

/**
 * Step 1 of the primary analysis: a station's before value is the mean of its readings by the outcome's instrument
 * inside the before window of its wall, after likewise. What was read when its wall had been treated is no before reading, and
 * what was read before that no after reading. Whatever does not enter is counted by reason.
 *
 * @example stationChanges(trial, readings).stations[0].before // 11.54
 */
export function stationChanges(trial: Trial, readings: readonly MoistureReading[]): StationChanges {
  const leftOut = new Map<ReadingLeftOut, Group<MoistureReading>>();
  const leave = (reading: MoistureReading, reason: ReadingLeftOut) => addTo(leftOut, reason, reading);
  // Walls inside walls' stations: this runs once for each choice that is tried, and compound keys would cost most of it.
  const byWall = new Map<string, Map<string, ReadStation>>();
  const inOrder: ReadStation[] = [];
  const reasonAgainst = reasonsAgainst(trial);
  for (const reading of readings) {
    const verdict = reasonAgainst(reading);
    if ('code' in verdict) {
      leave(reading, verdict);
      continue;
    }
    const stations = stationsOf(byWall, reading.wall);
    let own = stations.get(reading.station);
    if (own === undefined) {
      own = { wall: reading.wall, station: reading.station, readings: [], before: [], after: [] };
      stations.set(reading.station, own);
      inOrder.push(own);
    }
    own.readings.push(verdict);
    own[verdict.window].push(verdict.value);
  }
  const placed = placesOfStations(trial);
  const changes = inOrder.map(({ wall, station, before, after, readings: own }) => {
    const change: StationChange = {
      wall,
      station,
      ...placed.get(wall)?.get(station),
      ...(before.length === 0 ? {} : { before: mean(before) }),
      ...(after.length === 0 ? {} : { after: mean(after) }),
    };
    return { change, own };
  });
  const stations = changes.map(({ change }) => change);
  const entering = stationsThatEnter(trial, stations);
  const used: MoistureReading[] = [];
  for (const { change, own } of changes) {
    if (entering.has(change)) for (const { reading } of own) used.push(reading);
    else for (const { reading, window } of own) leave(reading, reasons[`without-other-than-${window}`]);
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
 * @example withoutWalls(changes, [{ wall: 'W01', reason: { code: 'no-after' } }]).leftOut.at(-1).reason.code // 'wall-without-partner'
 */
export function withoutWalls(changes: StationChanges, walls: readonly LeftOutWall[]): StationChanges {
  const gone = new Set(walls.map(({ wall }) => wall));
  const dropped = changes.used.filter(({ wall }) => gone.has(wall));
  if (dropped.length === 0) return changes;
  return {
    stations: changes.stations,
    used: changes.used.filter(({ wall }) => !gone.has(wall)),
    leftOut: [...changes.leftOut, countedWithOrigins({ code: 'wall-without-partner' }, dropped)],
  };
}

/** Those with both values, and those of walls whose places were named anew. */
function stationsThatEnter(trial: Trial, stations: readonly StationChange[]): ReadonlySet<StationChange> {
  const isAfterAlone = comparesAfterAlone(trial, stations);
  const byWall = groupBy(stations, ({ wall }) => wall);
  return new Set([...byWall.values()].flatMap((own) => comparedStations(own, isAfterAlone)?.stations ?? []));
}

/** The reading's value and window, or why it cannot enter. */
function reasonsAgainst(trial: Trial): (reading: MoistureReading) => SortedReading | ReadingLeftOut {
  const { outcome } = trial.protocol;
  const sides = comparisonSides(trial.protocol);
  const compared = new Set(trial.walls.filter(({ arm }) => sides.has(arm)).map(({ wall }) => wall));
  const sorted = daySorter(trial);
  const others = new Map<string, ReadingLeftOut>();
  return (reading) => {
    if (reading.instrument !== outcome.instrument) return otherInstrument(others, reading.instrument);
    if (!compared.has(reading.wall)) return reasons['other-arm'];
    if (reading.value.kind === 'missing') return reasons['no-value'];
    if (reading.value.kind === 'below-detection') return reasons['below-detection'];
    const window = sorted(reading.wall, reading.day);
    return window === 'before' || window === 'after'
      ? { reading, value: reading.value.value, window }
      : reasons[window];
  };
}

/** One record for each reason: readings are counted by it, and it is looked up for each of them. */
const reasons = {
  'other-arm': { code: 'other-arm' },
  'no-value': { code: 'no-value' },
  'below-detection': { code: 'below-detection' },
  'treated-by-then': { code: 'treated-by-then' },
  'not-yet-treated': { code: 'not-yet-treated' },
  outside: { code: 'outside' },
  'no-windows': { code: 'no-windows' },
  'without-other-than-before': { code: 'station-without-after' },
  'without-other-than-after': { code: 'station-without-before' },
} as const satisfies Readonly<
  Record<Exclude<DayOfWall, 'before' | 'after'>, ReadingLeftOut> & Record<string, ReadingLeftOut>
>;

function otherInstrument(known: Map<string, ReadingLeftOut>, instrument: string): ReadingLeftOut {
  const own = known.get(instrument) ?? { code: 'other-instrument', instrument };
  known.set(instrument, own);
  return own;
}

interface Place {
  readonly height_mm?: number;
  readonly depth_mm?: number;
}

function placesOfStations(trial: Trial): ReadonlyMap<string, ReadonlyMap<string, Place>> {
  const byWall = new Map<string, Map<string, Place>>();
  for (const { wall, station, height_mm, depth_mm } of trial.stations)
    stationsOf(byWall, wall).set(station, {
      ...present({ height_mm, depth_mm }),
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

function countedWithOrigins(reason: ReadingLeftOut, readings: readonly MoistureReading[]): LeftOutReadings {
  return {
    reason,
    count: readings.length,
    origins: readings.map(({ origin }) => origin),
  };
}
