import type { LeftOutWall, Side, WallChange } from './wall-change.js';

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
  const blocks = groupByBlock(walls);
  if (![...blocks.values()].some(holdsBothSides)) return { design: { kind: 'confounded', walls }, leftOut: [] };
  const isAlone = ({ block }: WallChange) => blocks.get(block)?.length === 1;
  const kept = walls.filter((wall) => !isAlone(wall));
  const leftOut = walls.filter(isAlone).map(alone);
  const pairs = pairsOf(groupByBlock(kept));
  const design: ComparisonDesign =
    pairs === undefined ? { kind: 'blocks', walls: kept } : { kind: 'pairs', walls: kept, pairs };
  return { design, leftOut };
}

function groupByBlock(walls: readonly WallChange[]): ReadonlyMap<string, readonly WallChange[]> {
  const blocks = new Map<string, WallChange[]>();
  for (const wall of walls) blocks.set(wall.block, [...(blocks.get(wall.block) ?? []), wall]);
  return blocks;
}

function holdsBothSides(walls: readonly WallChange[]): boolean {
  return new Set(walls.map(({ side }) => side)).size === 2;
}

/** Undefined as soon as one block is not exactly one treated and one untreated wall. */
function pairsOf(blocks: ReadonlyMap<string, readonly WallChange[]>): readonly Pair[] | undefined {
  const pairs: Pair[] = [];
  for (const [block, walls] of blocks) {
    const [treated, untreated] = [onSide(walls, 'treated'), onSide(walls, 'untreated')];
    if (walls.length !== 2 || treated === undefined || untreated === undefined) return undefined;
    pairs.push({ block, treated, untreated });
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
