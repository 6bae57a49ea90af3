import type { Trial } from '../../trial/index.js';
import { comparisonSides } from '../comparison-sides.js';
import type { Side } from '../wall-change.js';

/** Both sides of the comparison, in the order in which facts are listed. */
export const bothSides = ['treated', 'untreated'] as const satisfies readonly Side[];

/** The side of each wall that stands in the primary comparison, by its name. */
export function sidesOfWalls({ protocol, walls }: Trial): ReadonlyMap<string, Side> {
  const sides = comparisonSides(protocol);
  return new Map(
    walls.flatMap(({ wall, arm }): [string, Side][] => {
      const side = sides.get(arm);
      return side === undefined ? [] : [[wall, side]];
    }),
  );
}
