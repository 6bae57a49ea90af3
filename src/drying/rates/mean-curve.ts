import type { DryingCurve } from '../drying-curve.js';
import { DryingError } from '../drying-error.js';

/** One reading of one station. */
export interface StationReading {
  readonly station: string;
  readonly time_d: number;
  readonly moisture: number;
}

const where = 'meanCurve';

/**
 * A wall's curve over its stations: the mean of every visit as if every station had been read at it, from least squares of
 * moisture on station and visit. Where a station was missed at a visit, a plain mean would jump by what sets it apart.
 *
 * @throws DryingError `too-few` without readings, or where stations and visits fall into pieces that share none
 * @example meanCurve([{ station: 'low', time_d: 0, moisture: 10 }, { station: 'low', time_d: 9, moisture: 8 }]).moisture // [10, 8]
 */
export function meanCurve(readings: readonly StationReading[]): DryingCurve {
  if (readings.length === 0) throw new DryingError(where, 'too-few', 'needs at least one reading');
  checkConnected(readings);
  const times_d = [...new Set(readings.map(({ time_d }) => time_d))].sort((one, other) => one - other);
  const stations = [...new Set(readings.map(({ station }) => station))];
  let byVisit: ReadonlyMap<number, number> = new Map();
  let byStation: ReadonlyMap<string, number> = new Map(stations.map((station) => [station, 0]));
  const isFull = readings.length === times_d.length * stations.length;
  // Each round shrinks the distance to the least sum by a fixed share; a full table needs one.
  for (let round = 0; round < (isFull ? 1 : 500); round++) {
    byVisit = means(
      readings,
      ({ time_d }) => time_d,
      ({ moisture, station }) => moisture - (byStation.get(station) ?? 0),
    );
    const next = means(
      readings,
      ({ station }) => station,
      ({ moisture, time_d }) => moisture - (byVisit.get(time_d) ?? 0),
    );
    const moved = stations.reduce(
      (most, name) => Math.max(most, Math.abs((next.get(name) ?? 0) - (byStation.get(name) ?? 0))),
      0,
    );
    byStation = next;
    if (moved < 1e-12) break;
  }
  const centre = stations.reduce((sum, name) => sum + (byStation.get(name) ?? 0), 0) / stations.length;
  return { times_d, moisture: times_d.map((time) => (byVisit.get(time) ?? 0) + (isFull ? 0 : centre)) };
}

function means<Key>(
  readings: readonly StationReading[],
  keyOf: (reading: StationReading) => Key,
  numberOf: (reading: StationReading) => number,
): ReadonlyMap<Key, number> {
  const sums = new Map<Key, { sum: number; count: number }>();
  for (const reading of readings) {
    const own = sums.get(keyOf(reading)) ?? { sum: 0, count: 0 };
    sums.set(keyOf(reading), { sum: own.sum + numberOf(reading), count: own.count + 1 });
  }
  return new Map([...sums].map(([key, { sum, count }]) => [key, sum / count]));
}

/** Without shared visits, how one station differs cannot be separated from what changed between the visits. */
function checkConnected(readings: readonly StationReading[]): void {
  const seen = new Set([readings[0]?.station]);
  const visits = new Set<number>();
  for (let grown = -1; grown !== seen.size + visits.size; ) {
    grown = seen.size + visits.size;
    for (const { station, time_d } of readings) {
      if (seen.has(station)) visits.add(time_d);
      else if (visits.has(time_d)) seen.add(station);
    }
  }
  const lost = readings.find(({ station }) => !seen.has(station));
  if (lost === undefined) return;
  throw new DryingError(
    where,
    'too-few',
    `needs stations that share visits; "${lost.station}" shares none with the others`,
  );
}
