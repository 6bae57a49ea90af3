import type { AirAtTime } from '../../moisture/index.js';

/** Readings of one place by time, each time once; those whose time cannot be told do not count. */
export function airInOrder(readings: readonly AirAtTime[]): readonly AirAtTime[] {
  return readings
    .filter(({ time_h }) => Number.isFinite(time_h))
    .toSorted((one, other) => one.time_h - other.time_h)
    .filter(({ time_h }, at, all) => time_h !== all[at - 1]?.time_h);
}
