import type { Compared } from './method.js';
import type { WallChange } from './wall-change.js';

/** What the units of a comparison are, and which number of each is compared. */
export function comparedIn(units: readonly WallChange[]): Compared {
  return {
    units: units.find(({ unit }) => unit !== undefined)?.unit?.kind ?? 'wall',
    value: isAfterAlone(units) ? 'after' : 'change',
  };
}

/** Whether after values alone are compared, since nothing was read before. */
export function isAfterAlone(units: readonly WallChange[]): boolean {
  return units.length > 0 && units.every(({ before }) => before === undefined);
}
