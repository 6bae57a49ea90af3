import { present } from '../../plain/present.js';
import type { Trial } from '../../trial/index.js';

/** Where a sensor of the log sits. */
export interface SensorPlace {
  readonly sensor: string;
  readonly wall: string;
  readonly height_mm?: number;
}

/**
 * Places of the sensors of a trial’s log: by wall, and in a wall from the top down, as one sees it; heights that are not known come
 * last. Nothing without a log.
 */
export function sensorPlaces({ stations, sensorLog }: Trial): readonly SensorPlace[] {
  if (sensorLog === undefined) return [];
  const isNamed = stations.some(({ sensor }) => sensor !== undefined);
  const places = new Map(
    stations.map((one) => [isNamed ? one.sensor : one.station, { wall: one.wall, height_mm: one.height_mm }]),
  );
  const found = sensorLog.sensors.map(({ sensor }): SensorPlace => {
    const { wall = '', height_mm } = places.get(sensor) ?? {};
    return { sensor, wall, ...present({ height_mm }) };
  });
  return found.toSorted((one, other) => {
    if (one.wall !== other.wall) return one.wall < other.wall ? -1 : 1;
    return (other.height_mm ?? Number.NEGATIVE_INFINITY) - (one.height_mm ?? Number.NEGATIVE_INFINITY) || 0;
  });
}
