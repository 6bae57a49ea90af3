import { dayNumber } from '../../plain/days.js';
import { groupBy, valuesBy } from '../../plain/group-by.js';
import { present } from '../../plain/present.js';
import type { ReadingScale, Station, Trial } from '../../trial/index.js';
import { MoistureError } from '../moisture-error.js';
import type { MoistureReading } from '../moisture-reading.js';
import type { CalibrationPair } from './calibration-pair.js';
import { readingFromScale, readingOnScale } from './reading-scale.js';
import { type DatedValue, scatterOfRepeats } from './scatter-of-repeats.js';

export type { CalibrationPair } from './calibration-pair.js';

export interface CalibrationPairs {
  readonly pairs: readonly CalibrationPair[];
  /** Cores with a moisture that no reading of the meter could be set beside. */
  readonly coresAlone: number;
}

export interface PairingOptions {
  /** The meter. */
  readonly instrument: string;
  /** Readings at most so many days from the core; 3 unless told (our convention). Walls move in more. */
  readonly toleranceDays?: number;
  /** Places at most so far from the core's, by height and position; only the same station unless told. */
  readonly tolerance_mm?: number;
  /** On the logarithmic one the mean of readings is the geometric one; `linear` unless told. */
  readonly scale?: ReadingScale;
}

/**
 * Sets beside each core the meter's readings at the same wall and station, of the nearest day within the tolerance. With a tolerance of
 * place, the nearest place on the wall that was read in time does. Values below the detection limit are no numbers and pair with nothing.
 *
 * @throws MoistureError `unknown-name` where the trial has no gravimetric instrument
 * @example calibrationPairs(trial, readings, { instrument: 'microwave' }).pairs.length // 420
 */
export function calibrationPairs(
  trial: Trial,
  readings: readonly MoistureReading[],
  { instrument, toleranceDays = 3, tolerance_mm, scale = 'linear' }: PairingOptions,
): CalibrationPairs {
  const reference = trial.protocol.instruments.find(({ kind }) => kind === 'gravimetric')?.instrument;
  if (reference === undefined) {
    const detail = 'needs a gravimetric instrument in the protocol to calibrate against, found none';
    throw new MoistureError('calibrationPairs', 'unknown-name', detail);
  }
  const materials = new Map(trial.walls.map(({ wall, material = '' }) => [wall, material]));
  const meter = readingsByPlace(readings, instrument, scale);
  const scatter = scatterOfRepeats([...meter.values()]);
  const near = tolerance_mm === undefined ? () => [] : placesNear(trial.stations, tolerance_mm);
  const pairs: CalibrationPair[] = [];
  let coresAlone = 0;
  for (const core of readings) {
    if (core.instrument !== reference || core.value.kind !== 'measured') continue;
    const coreAt = dayNumber(core.day);
    const inTime = [{ place: placeOf(core), distance_mm: 0 }, ...near(core)].flatMap(({ place, distance_mm }) => {
      const nearest = nearestDay(meter.get(place) ?? [], coreAt, toleranceDays);
      return nearest === undefined ? [] : [{ ...nearest, distance_mm }];
    });
    const nearest = inTime[0];
    if (nearest === undefined) {
      coresAlone++;
      continue;
    }
    const { wall, station, day, standardUncertainty } = core;
    const { daysApart, count, distance_mm } = nearest;
    const reading = readingFromScale(nearest.reading, scale);
    // d 10^x = 10^x ln 10 dx
    const perScale = scale === 'linear' ? 1 : reading * Math.LN10;
    pairs.push({
      wall,
      station,
      day,
      material: materials.get(wall) ?? '',
      moisture: core.value.value,
      ...present({ moistureUncertainty: standardUncertainty }),
      reading,
      ...(scatter === undefined ? {} : { readingUncertainty: (perScale * scatter) / Math.sqrt(count) }),
      daysApart,
      ...(distance_mm === 0 ? {} : { distance_mm }),
    });
  }
  return { pairs, coresAlone };
}

interface ReadAt extends DatedValue {
  /** Days since 1970. */
  readonly at: number;
}

function readingsByPlace(
  readings: readonly MoistureReading[],
  instrument: string,
  scale: ReadingScale,
): ReadonlyMap<string, readonly ReadAt[]> {
  const own = readings.filter((reading) => reading.instrument === instrument);
  return valuesBy(own, placeOf, ({ day, value }): ReadAt | undefined =>
    value.kind === 'measured' ? { day, at: dayNumber(day), value: readingOnScale(value.value, scale) } : undefined,
  );
}

function nearestDay(values: readonly ReadAt[], coreAt: number, toleranceDays: number) {
  let daysApart = Number.POSITIVE_INFINITY;
  let [sum, count] = [0, 0];
  for (const one of values) {
    const apart = Math.abs(one.at - coreAt);
    if (apart > toleranceDays || apart > daysApart) continue;
    if (apart < daysApart) [daysApart, sum, count] = [apart, 0, 0];
    sum += one.value;
    count++;
  }
  return count === 0 ? undefined : { reading: sum / count, daysApart, count };
}

/** The other stations of a core's wall within a distance, nearest first; a station without a height is near to none. */
function placesNear(stations: readonly Station[], tolerance_mm: number) {
  const byWall = groupBy(stations, ({ wall }) => wall);
  return (core: { readonly wall: string; readonly station: string }) => {
    const own = byWall.get(core.wall) ?? [];
    const here = own.find(({ station }) => station === core.station);
    if (here === undefined) return [];
    return own
      .flatMap((other) => {
        const distance_mm = other === here ? undefined : distanceOf(here, other);
        return distance_mm === undefined || distance_mm > tolerance_mm ? [] : [{ place: placeOf(other), distance_mm }];
      })
      .sort((one, other) => one.distance_mm - other.distance_mm);
  };
}

/** Across the face of a wall. Where one of the two has a position and the other none, nobody knows. */
function distanceOf(one: Station, other: Station): number | undefined {
  if (one.height_mm === undefined || other.height_mm === undefined) return undefined;
  if ((one.position_mm === undefined) !== (other.position_mm === undefined)) return undefined;
  return Math.hypot(one.height_mm - other.height_mm, (one.position_mm ?? 0) - (other.position_mm ?? 0));
}

function placeOf({ wall, station }: { readonly wall: string; readonly station: string }): string {
  return JSON.stringify([wall, station]);
}
