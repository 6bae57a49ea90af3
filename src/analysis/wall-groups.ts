import type { BlockOfGroups } from '../statistics/index.js';
import type { Pair } from './comparison-design.js';
import type { WallCount } from './estimate.js';
import type { Side, WallChange } from './wall-change.js';

export function changesOn(walls: readonly WallChange[], side: Side): readonly number[] {
  return walls.filter((wall) => wall.side === side).map(({ change }) => change);
}

export function wallCount(walls: readonly WallChange[]): WallCount {
  const treated = walls.filter(({ side }) => side === 'treated').length;
  return { treated, untreated: walls.length - treated };
}

/** Treated less untreated, in the order of the pairs. */
export function differencesInPairs(pairs: readonly Pair[]): readonly number[] {
  return pairs.map(({ treated, untreated }) => treated.change - untreated.change);
}

/** Walls by block, in the order in which the blocks first appear. */
export function byBlock(walls: readonly WallChange[]): readonly (readonly WallChange[])[] {
  const blocks = new Map<string, WallChange[]>();
  for (const wall of walls) {
    const block = blocks.get(wall.block);
    if (block === undefined) blocks.set(wall.block, [wall]);
    else block.push(wall);
  }
  return [...blocks.values()];
}

/** Changes by block, the treated as x and the untreated as y. */
export function groupsInBlocks(walls: readonly WallChange[]): readonly BlockOfGroups[] {
  return byBlock(walls).map((block) => ({ x: changesOn(block, 'treated'), y: changesOn(block, 'untreated') }));
}
