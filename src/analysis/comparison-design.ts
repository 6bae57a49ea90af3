import type { LeftOutWall, PlacedWall, Side, WallChange } from './wall-change.js';
import { byBlock } from './wall-groups.js';
import type { Pair } from './wall-pair.js';

export type { Pair } from './wall-pair.js';

/** How the walls of the primary comparison are arranged, which decides the method. */
export type ComparisonDesign<W extends PlacedWall = WallChange> =
  | { readonly kind: 'complete'; readonly walls: readonly W[] }
  | {
      readonly kind: 'pairs';
      readonly walls: readonly W[];
      readonly pairs: readonly Pair<W>[];
    }
  | { readonly kind: 'blocks'; readonly walls: readonly W[] }
  /** No block holds both a treated and an untreated wall, so arm and block cannot be distinguished. */
  | { readonly kind: 'confounded'; readonly walls: readonly W[] };

export interface DesignOfComparison<W extends PlacedWall = WallChange> {
  readonly design: ComparisonDesign<W>;
  /** Walls alone in their block: a least-squares fit with blocks passes through them, so they add nothing. */
  readonly leftOut: readonly LeftOutWall[];
}

/**
 * The design of the primary comparison: no blocks, each block one treated and one untreated wall, or other blocks.
 * Walls without a block, where others have one, count as one further block. A wall alone in its block, as when its
 * partner was lost, adds neither to the difference inside blocks nor to the residual variance: it is left out and named.
 *
 * @example comparisonDesign(wallChanges(trial, changes.stations).walls).design.kind // 'pairs'
 */
export function comparisonDesign<W extends PlacedWall>(walls: readonly W[]): DesignOfComparison<W> {
  const isOneSided = !holdsBothSides(walls);
  if (isOneSided || walls.every(({ block }) => block === ''))
    return { design: { kind: 'complete', walls }, leftOut: [] };
  const blocks = byBlock(walls);
  if (!blocks.some(holdsBothSides)) return { design: { kind: 'confounded', walls }, leftOut: [] };
  const single = new Set(blocks.filter(({ length }) => length === 1).flat());
  const kept = walls.filter((wall) => !single.has(wall));
  const leftOut = [...single].map(alone);
  const pairs = pairsOf(byBlock(kept));
  const design: ComparisonDesign<W> =
    pairs === undefined ? { kind: 'blocks', walls: kept } : { kind: 'pairs', walls: kept, pairs };
  return { design, leftOut };
}

function holdsBothSides(walls: readonly PlacedWall[]): boolean {
  return new Set(walls.map(({ side }) => side)).size === 2;
}

/** Undefined as soon as one block is not exactly one treated and one untreated wall. */
function pairsOf<W extends PlacedWall>(blocks: readonly (readonly W[])[]): readonly Pair<W>[] | undefined {
  const pairs: Pair<W>[] = [];
  for (const walls of blocks) {
    const [treated, untreated] = [onSide(walls, 'treated'), onSide(walls, 'untreated')];
    if (walls.length !== 2 || treated === undefined || untreated === undefined) return undefined;
    pairs.push({ block: treated.block, treated, untreated });
  }
  return pairs;
}

function onSide<W extends PlacedWall>(walls: readonly W[], side: Side): W | undefined {
  return walls.find((wall) => wall.side === side);
}

function alone({ wall, block }: PlacedWall): LeftOutWall {
  return { wall, reason: { code: 'alone-in-block', block } };
}
