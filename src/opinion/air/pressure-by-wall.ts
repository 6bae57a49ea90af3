import { placesBeside, type RecordSource } from '../../findings/air/places-beside.js';
import { usableAir } from '../../findings/air/usable-air.js';
import { pressureDifference } from '../../moisture/index.js';
import { mean } from '../../statistics/index.js';
import type { Trial } from '../../trial/index.js';

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
 * Daily means of the vapour pressure difference between a wet wall and the air beside it, by wall; undefined where no air was recorded. The wall
 * is as warm as the air where its surface was not measured. Several places count alike, however often each was read.
 */
export function pressureByWall({ climate, walls }: Trial): (wall: string) => PressureOfWall | undefined {
  const places = dailyByPlace(climate);
  const beside = placesBeside(walls, [...places.keys()]);
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

function dailyByPlace(climate: Trial['climate']): ReadonlyMap<string, readonly PressureOfDay[]> {
  const places = new Map<string, Map<string, number[]>>();
  for (const reading of climate) {
    const air = usableAir(reading);
    if (air === undefined) continue;
    const days = places.get(reading.place) ?? new Map<string, number[]>();
    places.set(reading.place, days);
    const day = reading.time.slice(0, 10);
    const value = pressureDifference(air.surface_c ?? air.temperature_c, air);
    const own = days.get(day);
    if (own === undefined) days.set(day, [value]);
    else own.push(value);
  }
  return new Map(
    [...places].map(([place, days]) => [place, [...days].map(([day, values]) => ({ day, pressure_pa: mean(values) }))]),
  );
}

function meanOverPlaces(all: readonly PressureOfDay[]): readonly PressureOfDay[] {
  const days = new Map<string, number[]>();
  for (const { day, pressure_pa } of all) {
    const known = days.get(day);
    if (known === undefined) days.set(day, [pressure_pa]);
    else known.push(pressure_pa);
  }
  return [...days]
    .map(([day, values]) => ({ day, pressure_pa: mean(values) }))
    .sort((one, other) => (one.day < other.day ? -1 : 1));
}
