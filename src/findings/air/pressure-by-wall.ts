import { type AirAtTime, type MarkedLimit, pressureDifference } from '../../moisture/index.js';
import { isoDay } from '../../plain/days.js';
import { groupBy, valuesBy } from '../../plain/group-by.js';
import { mean } from '../../statistics/index.js';
import type { Trial } from '../../trial/index.js';
import { placesBeside, type RecordSource } from './places-beside.js';
import { usableAir } from './usable-air.js';

export interface PressureOfDay {
  readonly day: string;
  readonly pressure_pa: number;
}

/** How much more vapour pressure a wet wall has than the air that stands for its own, day by day. */
export interface PressureOfWall {
  readonly source: RecordSource;
  readonly daily: readonly PressureOfDay[];
}

/**
 * How warm a wet wall counts: as its surface was measured, where it was; or as warm as the air, for a limit that no wall’s temperature may
 * lower.
 */
export type WallWarmth = 'as-measured' | 'as-the-air';

/**
 * Of the readings of every place that stands for a wall, for its surface temperature to count: by then the other readings are
 * left out. Else it counts nowhere, for walls and days must be compared by the same measure.
 */
export const leastMeasured: MarkedLimit = { value: 0.9, mark: 'our convention' };

/**
 * Daily means of the vapour pressure difference between a wet wall and the air beside it, by wall; undefined where no air was recorded. The wall
 * is as warm as the air where its surface was not measured. Several places count alike, however often each was read.
 */
export function pressureByWall(
  { climate, walls }: Trial,
  warmth: WallWarmth = 'as-measured',
): (wall: string) => PressureOfWall | undefined {
  const readings = climate.flatMap((reading) => {
    const air = usableAir(reading);
    return air === undefined ? [] : [{ place: reading.place, day: isoDay(reading.time), air }];
  });
  const beside = placesBeside(walls, [...new Set(readings.map(({ place }) => place))]);
  const standing = new Set(walls.flatMap(({ wall }) => beside(wall)?.places ?? []));
  const isMeasured = warmth === 'as-measured' && [...standing].every((place) => isBySurface(readings, place));
  const places = dailyByPlace(readings, isMeasured);
  const known = new Map<string, PressureOfWall>();
  return (wall) => {
    const own = beside(wall);
    if (own === undefined) return undefined;
    const key = JSON.stringify(own);
    const found = known.get(key) ?? {
      source: own.source,
      daily: meanOverPlaces(own.places.flatMap((place) => places.get(place) ?? [])),
    };
    known.set(key, found);
    return found;
  };
}

interface ReadingAtPlace {
  readonly place: string;
  readonly day: string;
  readonly air: AirAtTime;
}

function isBySurface(readings: readonly ReadingAtPlace[], place: string): boolean {
  const own = readings.filter((reading) => reading.place === place);
  return own.filter(({ air }) => air.surface_c !== undefined).length >= leastMeasured.value * own.length;
}

function dailyByPlace(
  readings: readonly ReadingAtPlace[],
  isMeasured: boolean,
): ReadonlyMap<string, readonly PressureOfDay[]> {
  const pressureOf = ({ air }: ReadingAtPlace): number | undefined => {
    const wall_c = isMeasured ? air.surface_c : air.temperature_c;
    return wall_c === undefined ? undefined : pressureDifference(wall_c, air);
  };
  return new Map(
    [...groupBy(readings, ({ place }) => place)].map(([place, own]) => [place, dailyMeans(own, pressureOf)]),
  );
}

function dailyMeans<Dated extends { readonly day: string }>(
  all: readonly Dated[],
  pressureOf: (one: Dated) => number | undefined,
): readonly PressureOfDay[] {
  return [...valuesBy(all, ({ day }) => day, pressureOf)].map(([day, values]) => ({ day, pressure_pa: mean(values) }));
}

function meanOverPlaces(all: readonly PressureOfDay[]): readonly PressureOfDay[] {
  return dailyMeans(all, ({ pressure_pa }) => pressure_pa).toSorted((one, other) => (one.day < other.day ? -1 : 1));
}
