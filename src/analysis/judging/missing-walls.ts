import { boundsOfDifference, type Interval, shiftToTarget } from '../../statistics/index.js';
import type { ComparisonDesign } from '../comparison-design.js';
import type { LeftOutWall, Side } from '../wall-change.js';
import { changesOn, differencesInPairs } from '../wall-groups.js';

export interface MissingWalls {
  /** Walls of each side, or pairs that lost a wall. */
  readonly missing: { readonly treated: number; readonly untreated: number; readonly pairs: number };
  /** The difference if every missing unit had been the worst, or the best, of those seen. */
  readonly bounds: { readonly lower: number; readonly upper: number };
  /**
   * By how much the missing treated walls, or pairs, would have to differ from those observed for the interval to reach zero.
   * Absent where none of them is missing, or the interval holds zero already.
   */
  readonly shiftToZero?: number;
}

/**
 * What the walls without a change could have done to the primary answer: bounds without any assumption, and the tipping
 * point. Absent where none is missing; in blocks of several walls, where the loss of a wall shifts no simple mean, as well.
 *
 * @example missingWalls(design, leftOut, sides, interval)?.bounds
 */
export function missingWalls(
  design: ComparisonDesign,
  leftOut: readonly LeftOutWall[],
  sides: ReadonlyMap<string, Side>,
  interval: Interval | undefined,
): MissingWalls | undefined {
  const lost = leftOut.filter(({ wall }) => sides.has(wall));
  if (lost.length === 0 || design.walls.length === 0) return undefined;
  const lostOn = (side: Side) => lost.filter(({ wall }) => sides.get(wall) === side).length;
  const missing = { treated: lostOn('treated'), untreated: lostOn('untreated'), pairs: 0 };
  const worst = interval && worstLimit(interval);
  if (design.kind === 'complete') {
    const [x, y] = [changesOn(design.walls, 'treated'), changesOn(design.walls, 'untreated')];
    if (x.length === 0 || y.length === 0) return undefined;
    const { lower, upper } = boundsOfDifference({ x, y, missing: { x: missing.treated, y: missing.untreated } });
    const group = { observed: x.length, missing: missing.treated, sign: 1 as const };
    return { missing, bounds: { lower, upper }, ...tipping(worst, group) };
  }
  if (design.kind !== 'pairs') return undefined;
  const differences = differencesInPairs(design.pairs);
  const pairs = Math.max(missing.treated, missing.untreated);
  const range = { least: Math.min(...differences), greatest: Math.max(...differences) };
  const { lower, upper } = boundsOfDifference({ x: differences, y: [0], missing: { x: pairs, y: 0 }, range });
  const group = { observed: differences.length, missing: pairs, sign: 1 as const };
  return { missing: { ...missing, pairs }, bounds: { lower, upper }, ...tipping(worst, group) };
}

/** The limit nearest zero, where the interval leaves zero out. */
export function worstLimit({ lower, upper }: Interval): number | undefined {
  if (upper < 0) return upper;
  return lower > 0 ? lower : undefined;
}

function tipping(from: number | undefined, group: { observed: number; missing: number; sign: 1 }) {
  if (from === undefined || group.missing === 0) return {};
  return { shiftToZero: shiftToTarget({ from, to: 0, group }).shift };
}
