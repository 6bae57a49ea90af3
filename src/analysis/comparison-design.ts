import type { LeftOutWall, Side, WallChange } from './wall-change.js';
import { byBlock } from './wall-groups.js';

/** How the walls of the primary comparison are arranged, which decides the method. */
export type ComparisonDesign =
  | { readonly kind: 'complete'; readonly walls: readonly WallChange[] }
  | {
      readonly kind: 'pairs';
      readonly walls: readonly WallChange[];
      readonly pairs: readonly Pair[];
    }
  | { readonly kind: 'blocks'; readonly walls: readonly WallChange[] }
  /** No block holds both a treated and an untreated wall, so arm and block cannot be told apart. */
  | { readonly kind: 'confounded'; readonly walls: readonly WallChange[] };

export interface Pair {
  readonly block: string;
  readonly treated: WallChange;
  readonly untreated: WallChange;
}

export interface DesignOfComparison {
  readonly design: ComparisonDesign;
  /** Walls alone in their block: a least-squares fit with blocks passes through them, so they add nothing. */
  readonly leftOut: readonly LeftOutWall[];
}

/**
 * The design of the primary comparison: no blocks, each block one treated and one untreated wall, or other blocks.
 * Walls without a block, where others have one, count as one further block. A wall alone in its block, as when its
 * partner was lost, adds neither to the difference inside blocks nor to the residual variance: it is left out and named.
 *
 * @example comparisonDesign(walls).design.kind // 'pairs'
 */
export function comparisonDesign(walls: readonly WallChange[]): DesignOfComparison {
  const isOneSided = !holdsBothSides(walls);
  if (isOneSided || walls.every(({ block }) => block === ''))
    return { design: { kind: 'complete', walls }, leftOut: [] };
  const blocks = byBlock(walls);
  if (!blocks.some(holdsBothSides)) return { design: { kind: 'confounded', walls }, leftOut: [] };
  const single = new Set(blocks.filter(({ length }) => length === 1).flat());
  const kept = walls.filter((wall) => !single.has(wall));
  const leftOut = [...single].map(alone);
  const pairs = pairsOf(byBlock(kept));
  const design: ComparisonDesign =
    pairs === undefined ? { kind: 'blocks', walls: kept } : { kind: 'pairs', walls: kept, pairs };
  return { design, leftOut };
}

function holdsBothSides(walls: readonly WallChange[]): boolean {
  return new Set(walls.map(({ side }) => side)).size === 2;
}

/** Undefined as soon as one block is not exactly one treated and one untreated wall. */
function pairsOf(blocks: readonly (readonly WallChange[])[]): readonly Pair[] | undefined {
  const pairs: Pair[] = [];
  for (const walls of blocks) {
    const [treated, untreated] = [onSide(walls, 'treated'), onSide(walls, 'untreated')];
    if (walls.length !== 2 || treated === undefined || untreated === undefined) return undefined;
    pairs.push({ block: treated.block, treated, untreated });
  }
  return pairs;
}

function onSide(walls: readonly WallChange[], side: Side): WallChange | undefined {
  return walls.find((wall) => wall.side === side);
}

function alone({ wall, block }: WallChange): LeftOutWall {
  const place = block === '' ? 'the only wall without a block' : `the only wall of its block ${block} with a change`;
  return { wall, reason: `${place}, so there is none to compare it with` };
}
