import { boundsOfDifference, extremes, type Interval } from '../../statistics/index.js';
import { type ComparisonDesign, comparisonDesign } from '../comparison-design.js';
import { differenceOfWalls } from '../difference-of-walls.js';
import type { PlacedWall, Side, WallChange } from '../wall-change.js';
import { changesOn, differencesInPairs } from '../wall-groups.js';

export interface MissingWalls {
  /** Walls of each side, or pairs that lost a wall. */
  readonly missing: { readonly treated: number; readonly untreated: number; readonly pairs: number };
  /** The difference if every missing unit had been the worst, or the best, of those seen. */
  readonly bounds: { readonly lower: number; readonly upper: number };
  /**
   * By how much the difference moves for each unit by which the missing treated walls, or pairs, differ from those observed; the
   * error that goes with it stays that of the observed walls. Absent where none of them is missing.
   */
  readonly movesBy?: number;
}

/**
 * What the walls without a change could have done to the primary answer: bounds without any assumption, and how far it follows
 * them, from which comes the tipping point of any limit (a pattern-mixture model; Permutt 2016, Stat. Med. 35:2876-2884, from
 * memory). In blocks of several walls the missing ones are put back into their blocks and the fit is made again. Absent where none
 * is missing.
 *
 * @param lost walls of the comparison that have no place in its design
 * @example
 * const [lost, ...others] = design.walls;
 * missingWalls(comparisonDesign(others).design, [lost]).bounds // { lower: -4.383, upper: -4.005 }
 */
export function missingWalls(design: ComparisonDesign, lost: readonly PlacedWall[]): MissingWalls | undefined {
  if (lost.length === 0 || design.walls.length === 0) return undefined;
  const lostOn = (side: Side) => lost.filter((wall) => wall.side === side).length;
  const missing = { treated: lostOn('treated'), untreated: lostOn('untreated'), pairs: 0 };
  if (design.kind === 'complete') {
    const [x, y] = [changesOn(design.walls, 'treated'), changesOn(design.walls, 'untreated')];
    if (x.length === 0 || y.length === 0) return undefined;
    const { lower, upper } = boundsOfDifference({ x, y, missing: { x: missing.treated, y: missing.untreated } });
    return { missing, bounds: { lower, upper }, ...following(x.length, missing.treated) };
  }
  if (design.kind === 'blocks') return { missing, ...inBlocks(design.walls, lost) };
  if (design.kind === 'confounded') return undefined;
  const differences = differencesInPairs(design.pairs);
  const pairs = Math.max(missing.treated, missing.untreated);
  const range = extremes(differences);
  const { lower, upper } = boundsOfDifference({ x: differences, y: [0], missing: { x: pairs, y: 0 }, range });
  return { missing: { ...missing, pairs }, bounds: { lower, upper }, ...following(differences.length, pairs) };
}

/**
 * The fit is linear in the changes, so that its least and greatest values lie where every missing wall is at an end of the
 * range seen, and one step of all missing treated walls tells how far the difference moves with them.
 */
function inBlocks(walls: readonly WallChange[], lost: readonly PlacedWall[]): Pick<MissingWalls, 'bounds' | 'movesBy'> {
  const changes = walls.map(({ change }) => change);
  const { least, greatest } = extremes(changes);
  const filled = (treated: number, untreated: number) => {
    const back = lost.map((wall) => ({ ...wall, change: wall.side === 'treated' ? treated : untreated }));
    const all: readonly (PlacedWall & { readonly change: number })[] = [...walls, ...back];
    // The level of the interval is not used, but a fit has one.
    return differenceOfWalls(comparisonDesign(all).design, ({ change }) => change, 0.95).result.estimate;
  };
  const step = filled(1, 0) - filled(0, 0);
  return {
    bounds: { lower: filled(least, greatest), upper: filled(greatest, least) },
    ...(step < 1e-9 ? {} : { movesBy: step }),
  };
}

/**
 * The limit nearest zero, where the interval leaves zero out.
 *
 * @example worstLimit({ level: 0.95, lower: -3, upper: -2 }) // -2
 */
export function worstLimit({ lower, upper }: Interval): number | undefined {
  if (upper < 0) return upper;
  return lower > 0 ? lower : undefined;
}

function following(observed: number, missing: number): Pick<MissingWalls, 'movesBy'> {
  return missing === 0 ? {} : { movesBy: missing / (observed + missing) };
}
