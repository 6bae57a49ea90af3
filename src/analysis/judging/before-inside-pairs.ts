import { unlessRefused } from '../../plain/unless-refused.js';
import { isStatisticsError, variance } from '../../statistics/index.js';
import type { ComparisonDesign } from '../comparison-design.js';
import { differenceOfWalls } from '../difference-of-walls.js';
import type { WallChange } from '../wall-change.js';

/** Before values of the treated walls less those of the untreated ones, inside pairs or blocks where there are any. */
export interface BeforeInsidePairs {
  readonly of: 'pairs' | 'blocks' | 'walls';
  /** In the outcome's unit. */
  readonly difference: number;
  /** In pairs the standard deviation of the pair differences, in blocks that of walls inside their block, else the pooled one of walls. */
  readonly spread: number;
  /** Difference over spread; absent where nothing varies. */
  readonly standardised?: number;
  /** Student's in pairs and blocks, Welch's without; 1 where nothing varies and nothing differs. Absent where it cannot be had. */
  readonly pValue?: number;
  /**
   * Standard deviation that the standardised difference has over random allocations: what chance alone makes of it. With 4 + 4
   * walls it is 0.71, so that a limit of 1 would often be passed by chance.
   */
  readonly byChance: number;
  /** Pairs, or walls. */
  readonly units: number;
}

/**
 * How unlike the sides were before the treatment. Pairs are made to be alike, so the spread of walls is the wrong measure for them:
 * the pair differences carry their own. The size of an imbalance matters for the answer, the p-value for whether it came by
 * chance: in randomised trials every imbalance did.
 *
 * @returns nothing where a side has fewer than two walls, or arm and block cannot be distinguished
 * @example beforeInsidePairs(design).standardised // -0.1756
 */
export function beforeInsidePairs(design: ComparisonDesign): BeforeInsidePairs | undefined {
  if (design.kind === 'confounded' || design.walls.some(({ before }) => before === undefined)) return undefined;
  const values = { treated: valuesOn(design, 'treated'), untreated: valuesOn(design, 'untreated') };
  const [treated, untreated] = [values.treated.length, values.untreated.length];
  if (treated < 2 || untreated < 2) return undefined;
  return unlessRefused(isStatisticsError, () => {
    const { result } = differenceOfWalls(design, beforeOf, 0.95);
    const { estimate: difference, standardError, pValue } = result;
    const tested = { difference, pValue };
    switch (design.kind) {
      case 'pairs': {
        const units = design.pairs.length;
        return {
          of: 'pairs',
          ...measured(tested, standardError * Math.sqrt(units)),
          byChance: 1 / Math.sqrt(units),
          units,
        };
      }
      case 'blocks': {
        // Least squares: standard error = spread times the root of a factor that depends on the sizes of blocks alone.
        const root = Math.sqrt(factorOfBlocks(design));
        return {
          of: 'blocks',
          ...measured(tested, standardError / root),
          byChance: root,
          units: treated + untreated,
        };
      }
      case 'complete': {
        const squares = (treated - 1) * variance(values.treated) + (untreated - 1) * variance(values.untreated);
        const spread = Math.sqrt(squares / (treated + untreated - 2));
        const byChance = Math.sqrt(1 / treated + 1 / untreated);
        return { of: 'walls', ...measured(tested, spread), byChance, units: treated + untreated };
      }
    }
  });
}

function measured(
  { difference, pValue }: { readonly difference: number; readonly pValue: number },
  spread: number,
): Pick<BeforeInsidePairs, 'difference' | 'spread' | 'standardised' | 'pValue'> {
  return { difference, spread, ...(spread > 0 ? { standardised: difference / spread } : {}), pValue };
}

/** Each block adds a·b/(a + b) to the information on the difference inside blocks. */
function factorOfBlocks(design: ComparisonDesign): number {
  const blocks = new Map<string, { treated: number; untreated: number }>();
  for (const { block, side } of design.walls) {
    const known = blocks.get(block) ?? { treated: 0, untreated: 0 };
    known[side] += 1;
    blocks.set(block, known);
  }
  const information = [...blocks.values()].reduce(
    (sum, { treated, untreated }) => sum + (treated * untreated) / (treated + untreated),
    0,
  );
  return 1 / information;
}

/** There is one for every wall that is compared here. */
function beforeOf({ before = 0 }: WallChange): number {
  return before;
}

function valuesOn(design: ComparisonDesign, side: 'treated' | 'untreated'): readonly number[] {
  return design.walls.filter((wall) => wall.side === side).map(beforeOf);
}
