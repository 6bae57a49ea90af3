import type { MoistureReading } from '../moisture/index.js';
import { mean } from '../statistics/index.js';
import { isInWindow, type Trial } from '../trial/index.js';
import type { WallChange } from './wall-change.js';

/** How a treated wall stood against an untreated one, visit by visit. */
export interface SeriesOfWalls {
  readonly treated: WallChange;
  readonly untreated: WallChange;
  /** Days inside the windows on which both walls were read, in their order. */
  readonly visits: readonly SeriesVisit[];
  /** Heights and depths at which both walls were read; 0 where whole walls are compared. */
  readonly matchedPlaces: number;
}

export interface SeriesVisit {
  /** ISO day. */
  readonly day: string;
  /** Days since the first visit. */
  readonly time_d: number;
  readonly window: 'before' | 'after';
  /** Treated less untreated wall, in the outcome's unit. */
  readonly difference: number;
}

interface PlaceReading {
  readonly place: string;
  readonly day: string;
  readonly value: number;
}

const dayLength = 86_400_000;

/**
 * Treated less untreated wall at each visit common to both. Where both walls have stations of the same height and depth, like
 * is compared with like and stations without a counterpart are left aside; else the walls' means over their stations are.
 *
 * A place that was missed at a visit does not pull that visit's mean towards the others: each place counts by how far it is
 * from its own mean before.
 *
 * @param used readings of stations that have a before and an after value, as `stationChanges` gives them
 * @example seriesOfWalls(twoWalls, readingsOfTwo, changesOfTwo[0], changesOfTwo[1]).visits[0].difference // -0.8123
 */
export function seriesOfWalls(
  trial: Trial,
  used: readonly MoistureReading[],
  treated: WallChange,
  untreated: WallChange,
): SeriesOfWalls {
  const { windows } = trial.protocol;
  const nothing = { treated, untreated, visits: [], matchedPlaces: 0 };
  if (windows === undefined) return nothing;
  const isBefore = (day: string) => isInWindow(day, windows.before);
  const [own, other] = [treated, untreated].map(({ wall }) => placeReadings(trial, used, wall));
  const matched = matchedDifferences(own!, other!, isBefore);
  const byDay = matched.length > 0 ? levelled(matched, isBefore) : ofWholeWalls(own!, other!, isBefore);
  const days = [...byDay.keys()].sort();
  const first = Date.parse(`${days[0] ?? '1970-01-01'}T00:00:00Z`);
  return {
    ...nothing,
    visits: days.map((day) => ({
      day,
      time_d: Math.round((Date.parse(`${day}T00:00:00Z`) - first) / dayLength),
      window: isBefore(day) ? 'before' : 'after',
      difference: byDay.get(day)!,
    })),
    matchedPlaces: new Set(matched.map(({ place }) => place)).size,
  };
}

/** A wall's means by place and day; a place is a height and depth, or a station whose height is not known. */
function placeReadings(trial: Trial, used: readonly MoistureReading[], wall: string): readonly PlaceReading[] {
  const places = new Map(
    trial.stations.flatMap(({ wall: own, station, height_mm, depth_mm }): [string, string][] =>
      own === wall && height_mm !== undefined ? [[station, `at ${height_mm} mm, ${depth_mm ?? 'no'} deep`]] : [],
    ),
  );
  const values = new Map<string, PlaceReading[]>();
  for (const { wall: own, station, day, value } of used) {
    if (own !== wall || value.kind !== 'measured') continue;
    const place = places.get(station) ?? `station ${wall} ${station}`;
    const key = JSON.stringify([place, day]);
    values.set(key, [...(values.get(key) ?? []), { place, day, value: value.value }]);
  }
  return [...values.values()].map((same) => ({ ...same[0]!, value: mean(same.map(({ value }) => value)) }));
}

/** Of places on both walls that have differences in both windows. */
function matchedDifferences(
  own: readonly PlaceReading[],
  other: readonly PlaceReading[],
  isBefore: (day: string) => boolean,
): readonly PlaceReading[] {
  const keyOf = ({ place, day }: PlaceReading) => JSON.stringify([place, day]);
  const others = new Map(other.map((reading) => [keyOf(reading), reading.value]));
  const all = own.flatMap((reading) => {
    const value = others.get(keyOf(reading));
    return value === undefined ? [] : [{ ...reading, value: reading.value - value }];
  });
  const hasBoth = (place: string) =>
    new Set(all.filter((one) => one.place === place).map(({ day }) => isBefore(day))).size === 2;
  return all.filter(({ place }) => hasBoth(place));
}

function ofWholeWalls(
  own: readonly PlaceReading[],
  other: readonly PlaceReading[],
  isBefore: (day: string) => boolean,
): ReadonlyMap<string, number> {
  const [one, another] = [levelled(own, isBefore), levelled(other, isBefore)];
  return new Map([...one].flatMap(([day, value]) => (another.has(day) ? [[day, value - another.get(day)!]] : [])));
}

/** Mean over places on each day, each place measured from its own mean before. */
function levelled(readings: readonly PlaceReading[], isBefore: (day: string) => boolean): ReadonlyMap<string, number> {
  const places = new Set(readings.map(({ place }) => place));
  const levels = new Map(
    [...places].map((place) => {
      const before = readings.filter((one) => one.place === place && isBefore(one.day));
      return [place, mean(before.map(({ value }) => value))];
    }),
  );
  const overall = levels.size === 0 ? 0 : mean([...levels.values()]);
  const byDay = new Map<string, number[]>();
  for (const { place, day, value } of readings) byDay.set(day, [...(byDay.get(day) ?? []), value - levels.get(place)!]);
  return new Map([...byDay].map(([day, values]) => [day, overall + mean(values)]));
}
