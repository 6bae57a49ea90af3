import type { Side } from '../../analysis/index.js';
import {
  type AirAtTime,
  evaporationPotential,
  isMoistureError,
  saturationTemperature,
  vapourDensity,
  vapourPressure,
} from '../../moisture/index.js';
import { isoDay } from '../../plain/days.js';
import { groupBy } from '../../plain/group-by.js';
import { present } from '../../plain/present.js';
import { unlessRefused } from '../../plain/unless-refused.js';
import { mean } from '../../statistics/index.js';
import type { Trial } from '../../trial/index.js';
import { type WindowName, windowOf } from '../cores/placed-cores.js';
import { airInOrder } from './air-in-order.js';
import { usableAir } from './usable-air.js';

/** Whose air it is: a place that is the `site` of walls belongs to their sides. */
export type AirPlace = 'treated' | 'untreated' | 'both' | 'elsewhere';

/** Means over the places of a kind, each place once. */
export interface AirInWindow {
  readonly place: AirPlace;
  readonly window: WindowName;
  readonly places: number;
  readonly readings: number;
  readonly temperature_c: number;
  readonly vapourPressure_pa: number;
  /** Of the mean vapour pressure; absent where it lies outside the formula's range. */
  readonly dewPoint_c?: number;
  readonly vapourDensity_g_m3: number;
  /** Vapour pressure of a wet wall as warm as the air, above the air's, over time. */
  readonly evaporation_pa: number;
}

/** Means over time at a place. */
export interface AirAtPlace extends Omit<AirInWindow, 'place' | 'window' | 'places' | 'dewPoint_c'> {}

const order: readonly AirPlace[] = ['treated', 'untreated', 'both', 'elsewhere'];

/** The air in both windows, by whose it is; nothing without readings of it in a window. */
export function airOfTrial(trial: Trial, sides: ReadonlyMap<string, Side>): readonly AirInWindow[] {
  const whose = placesOfSides(trial, sides);
  const windows = { before: [...airOfPlaces(trial, 'before')], after: [...airOfPlaces(trial, 'after')] };
  return order.flatMap((place) =>
    (['before', 'after'] as const).flatMap((window) => {
      const own = windows[window].filter(([name]) => (whose.get(name) ?? 'elsewhere') === place);
      return own.length === 0 ? [] : [{ place, window, ...meansOf(own.map(([, air]) => air)) }];
    }),
  );
}

/** The air of a window at every place that was read at least twice in it. */
export function airOfPlaces(trial: Trial, window: WindowName): ReadonlyMap<string, AirAtPlace> {
  const usable = trial.climate.flatMap((reading) => {
    const air = usableAir(reading);
    if (air === undefined || windowOf(trial, isoDay(reading.time)) !== window) return [];
    return [{ place: reading.place, air }];
  });
  return new Map(
    [...groupBy(usable, ({ place }) => place)].flatMap(([place, own]) => {
      const air = airAtPlace(own.map((each) => each.air));
      return air === undefined ? [] : [[place, air] as const];
    }),
  );
}

function placesOfSides({ walls }: Trial, sides: ReadonlyMap<string, Side>): ReadonlyMap<string, AirPlace> {
  const whose = new Map<string, AirPlace>();
  for (const { wall, site } of walls) {
    const side = sides.get(wall);
    if (site === undefined || side === undefined) continue;
    const known = whose.get(site) ?? side;
    whose.set(site, known === side ? side : 'both');
  }
  return whose;
}

function airAtPlace(readings: readonly AirAtTime[]): AirAtPlace | undefined {
  const inOrder = airInOrder(readings);
  if (inOrder.length < 2) return undefined;
  return {
    readings: inOrder.length,
    temperature_c: mean(inOrder.map((each) => each.temperature_c)),
    vapourPressure_pa: mean(inOrder.map((each) => vapourPressure(each))),
    vapourDensity_g_m3: mean(inOrder.map((each) => vapourDensity(each))),
    evaporation_pa: evaporationPotential(inOrder.map(({ surface_c: _, ...air }) => air)).mean_pa,
  };
}

function meansOf(places: readonly AirAtPlace[]): Omit<AirInWindow, 'place' | 'window'> {
  const of = (key: Exclude<keyof AirAtPlace, 'readings'>) => mean(places.map((each) => each[key]));
  const vapourPressure_pa = of('vapourPressure_pa');
  const dewPoint_c = dewPointOf(vapourPressure_pa);
  return {
    places: places.length,
    readings: places.reduce((sum, { readings }) => sum + readings, 0),
    temperature_c: of('temperature_c'),
    vapourPressure_pa,
    ...present({ dewPoint_c }),
    vapourDensity_g_m3: of('vapourDensity_g_m3'),
    evaporation_pa: of('evaporation_pa'),
  };
}

function dewPointOf(vapourPressure_pa: number): number | undefined {
  return unlessRefused(isMoistureError, () => saturationTemperature(vapourPressure_pa));
}
