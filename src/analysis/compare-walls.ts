import { present } from '../plain/present.js';
import { StatisticsError } from '../statistics/index.js';
import type { Answer } from './answer.js';
import { comparisonDesign } from './comparison-design.js';
import { differenceOfWalls } from './difference-of-walls.js';
import type { Estimate, Named } from './estimate.js';
import { estimatedUnlessRefused } from './not-estimated.js';
import type { PlacedWall } from './wall-change.js';
import { wallCount } from './wall-groups.js';

/** One number of a wall, whatever it measures: a rate, a loss, a time. */
export interface WallValue extends PlacedWall {
  readonly value: number;
}

export interface WallComparison extends Named {
  /** Of a difference; a ratio has none. */
  readonly unit: string;
  readonly level: number;
  /** `ratio`: of geometric means, judged on the logarithms, so that all values must be positive. */
  readonly scale: 'difference' | 'ratio';
  /** What is compared, where the id does not say it. */
  readonly quantity?: string;
  /** Of a rate for each wall: walls whose curve an exponential describes best. */
  readonly exponential?: { readonly walls: number; readonly of: number };
}

/**
 * Treated against untreated walls in one number of each wall, walls as the units, in the design that their blocks make:
 * without blocks Welch's interval, in pairs Student's over pairs, in other blocks least squares on arm and block. A ratio is
 * the exponential of the difference of mean logarithms, and so are its limits.
 *
 * @example
 * const rates = design.walls.map((wall, at) => ({ ...wall, value: wall.side === 'treated' ? 0.012 + 0.0001 * at : 0.008 + 0.0001 * at }));
 * const what = { id: 'rate-ratio', unit: 'ratio', level: 0.95, scale: 'ratio' };
 * compareWalls(rates, what).estimate.estimate // 1.44
 */
export function compareWalls(walls: readonly WallValue[], what: WallComparison): Answer {
  const { id, about, level, scale, quantity, exponential } = what;
  const { design } = comparisonDesign(walls);
  const isRatio = scale === 'ratio';
  return estimatedUnlessRefused(
    what,
    () => {
      if (isRatio) checkPositive(walls);
      const numberOf = ({ value }: WallValue) => (isRatio ? Math.log(value) : value);
      const { method, result } = differenceOfWalls(design, numberOf, level);
      const { estimate, interval, standardError, degreesOfFreedom, pValue } = result;
      const back = isRatio ? Math.exp : (value: number) => value;
      const answer: Estimate = {
        id,
        ...present({ about }),
        unit: isRatio ? 'ratio' : what.unit,
        estimate: back(estimate),
        interval: { level, lower: back(interval.lower), upper: back(interval.upper) },
        // That of a ratio would be of its logarithm, which nobody reads.
        ...(isRatio ? {} : { standardError }),
        degreesOfFreedom,
        pValue,
        method: {
          kind: 'wall-values',
          scale,
          difference: method,
          ...present({ quantity, exponential }),
        },
        walls: wallCount(design.walls),
      };
      return { kind: 'estimated', estimate: answer };
    },
    {
      'too-few': { code: 'too-few-values' },
      'no-variation': { code: 'values-do-not-vary' },
      'out-of-range': { code: 'ratio-needs-positive-values' },
    },
  );
}

function checkPositive(walls: readonly WallValue[]): void {
  if (walls.every(({ value }) => value > 0)) return;
  throw new StatisticsError('compareWalls', 'out-of-range', 'needs values above zero for a ratio');
}
