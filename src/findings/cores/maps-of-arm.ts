import { type MoistureAtPoint, wallMap, wallMapOfChange } from '../../moisture/index.js';
import type { MapsOfArm } from './cores-part.js';
import type { PlacesOfWall } from './places-of-walls.js';

/** With fewer the profile over height shows as much. Our own rule. */
const heightsForMap = 4;
const depthsForMap = 2;

/** Before, and the change, at every height and depth: means over the walls of an arm, each wall once a place. */
export function mapsOfArm(walls: readonly PlacesOfWall[]): Pick<MapsOfArm, 'walls' | 'before' | 'change'> | undefined {
  const places = walls.flatMap((wall) => wall.places);
  const count = (of: (place: (typeof places)[number]) => number | undefined) =>
    new Set(places.flatMap((place) => of(place) ?? [])).size;
  if (count((place) => place.height_mm) < heightsForMap || count((place) => place.depth_mm) < depthsForMap)
    return undefined;
  const [before, after] = (['before_pct', 'after_pct'] as const).map((window) =>
    places.map((place): MoistureAtPoint => ({ ...place, value_pct: place[window] })),
  );
  if (before === undefined || after === undefined) return undefined;
  return { walls: walls.length, before: wallMap(before), change: wallMapOfChange(before, after) };
}
