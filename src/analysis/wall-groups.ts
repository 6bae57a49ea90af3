import { groupBy } from '../plain/group-by.js';
import type { WallCount } from './estimate.js';
import type { PlacedWall, Side, WallChange } from './wall-change.js';
import type { Pair } from './wall-pair.js';

export function changesOn(walls: readonly WallChange[], side: Side): readonly number[] {
  return walls.filter((wall) => wall.side === side).map(({ change }) => change);
}

export function wallCount(walls: readonly PlacedWall[]): WallCount {
  const treated = walls.filter(({ side }) => side === 'treated').length;
  return { treated, untreated: walls.length - treated };
}

/** Treated less untreated, in the order of the pairs. */
export function differencesInPairs(pairs: readonly Pair[]): readonly number[] {
  return pairs.map(({ treated, untreated }) => treated.change - untreated.change);
}

/**
 * Walls by block, in the order in which the blocks first appear.
 *
 * @example byBlock(wallChanges(trial, changes.stations).walls).length // 12
 */
export function byBlock<W extends PlacedWall>(walls: readonly W[]): readonly (readonly W[])[] {
  return [...groupBy(walls, ({ block }) => block).values()];
}
