import { valuesBy } from '../plain/group-by.js';
import type { StationChange } from './wall-change.js';

/** By wall, the before values of its stations that have one. */
export function beforeByWall(stations: readonly StationChange[]): ReadonlyMap<string, readonly number[]> {
  return valuesBy(
    stations,
    ({ wall }) => wall,
    ({ before }) => before,
  );
}
