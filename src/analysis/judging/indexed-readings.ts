import type { MoistureReading } from '../../moisture/index.js';
import { mean } from '../../statistics/index.js';
import { isInWindow, type KnewArm, type Trial, type Windows } from '../../trial/index.js';
import { comparisonSides } from '../comparison-sides.js';
import type { PlacedWall } from '../wall-change.js';

/** The compared walls with their stations' measured readings, sorted once. */
export interface ReadingsIndex {
  /** Every day on which something was read. */
  readonly days: readonly string[];
  readonly walls: readonly IndexedWall[];
}

/** The plain parts that are looked at again and again have all their fields, so that they are read fast. */
interface IndexedWall {
  readonly placed: PlacedWall;
  readonly stations: readonly IndexedStation[];
}

interface IndexedStation extends StationPlace {
  readonly readings: IndexedReading[];
}

interface StationPlace {
  readonly station: string;
  readonly height_mm: number | undefined;
  readonly depth_mm: number | undefined;
}

export interface IndexedReading {
  /** Place of its day in `days`. */
  readonly day: number;
  readonly value: number;
  readonly reader: string | undefined;
  readonly knewArm: KnewArm | undefined;
}

/** A wall with its stations' changes between two windows. */
export interface StationsOfWall {
  readonly placed: PlacedWall;
  readonly stations: readonly StationPlace[];
  /** After less before, in the order of the stations. */
  readonly changes: readonly number[];
}

export interface ChangedWall extends PlacedWall {
  readonly change: number;
}

/**
 * The outcome's readings by wall and station, for analyses that are made anew by the dozen with other windows or readers. The
 * way from a reading to a wall's change is that of `stationChanges` and `wallChanges`, without their bookkeeping of what is left out.
 */
export function indexedReadings(trial: Trial, readings: readonly MoistureReading[]): ReadingsIndex {
  const sides = comparisonSides(trial.protocol);
  const placesOfWall = new Map<string, Map<string, Trial['stations'][number]>>();
  for (const station of trial.stations) inside(placesOfWall, station.wall).set(station.station, station);
  const walls = trial.walls.flatMap(({ wall, arm, block = '' }) => {
    const side = sides.get(arm);
    return side === undefined
      ? []
      : [{ placed: { wall, arm, side, block }, stations: new Map<string, IndexedStation>() }];
  });
  const byName = new Map(walls.map((one) => [one.placed.wall, one.stations]));
  const days = new Map<string, number>();
  for (const { wall, station, day, value, instrument, reader, knewArm } of readings) {
    const stations = byName.get(wall);
    if (value.kind !== 'measured' || instrument !== trial.protocol.outcome.instrument || stations === undefined)
      continue;
    const at = days.get(day) ?? days.size;
    days.set(day, at);
    const known = stations.get(station);
    const reading: IndexedReading = { day: at, value: value.value, reader, knewArm };
    if (known !== undefined) known.readings.push(reading);
    else {
      const { height_mm, depth_mm } = placesOfWall.get(wall)?.get(station) ?? {};
      stations.set(station, { station, height_mm, depth_mm, readings: [reading] });
    }
  }
  return {
    days: [...days.keys()],
    walls: walls.map(({ placed, stations }) => ({ placed, stations: [...stations.values()] })),
  };
}

/** The changes of the stations that have a value in both windows, from the readings that are kept, wall by wall. */
export function stationsBetween(
  { days, walls }: ReadingsIndex,
  windows: Windows,
  isKept?: (reading: IndexedReading) => boolean,
): readonly StationsOfWall[] {
  const isBefore = days.map((day) => isInWindow(day, windows.before));
  const isAfter = days.map((day) => isInWindow(day, windows.after));
  return walls.map(({ placed, stations }) => {
    const [complete, changes]: [StationPlace[], number[]] = [[], []];
    for (const station of stations) {
      const [before, after]: [number[], number[]] = [[], []];
      for (const reading of station.readings) {
        if (isKept?.(reading) === false) continue;
        if (isBefore[reading.day]) before.push(reading.value);
        else if (isAfter[reading.day]) after.push(reading.value);
      }
      if (before.length === 0 || after.length === 0) continue;
      complete.push(station);
      changes.push(mean(after) - mean(before));
    }
    return { placed, stations: complete, changes };
  });
}

/** A wall's mean change; nothing where no station has one. */
export function changeOfWall({ placed, changes }: Pick<StationsOfWall, 'placed' | 'changes'>): ChangedWall | undefined {
  if (changes.length === 0) return undefined;
  const { wall, arm, side, block } = placed;
  return { wall, arm, side, block, change: mean(changes) };
}

function inside<T>(byWall: Map<string, Map<string, T>>, wall: string): Map<string, T> {
  const known = byWall.get(wall);
  if (known !== undefined) return known;
  const fresh = new Map<string, T>();
  byWall.set(wall, fresh);
  return fresh;
}
