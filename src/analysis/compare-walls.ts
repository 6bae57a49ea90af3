import { StatisticsError } from '../statistics/index.js';
import type { Answer } from './answer.js';
import { comparisonDesign } from './comparison-design.js';
import { type DifferenceMethod, differenceOfWalls } from './difference-of-walls.js';
import type { Estimate } from './estimate.js';
import { notEstimated } from './not-estimated.js';
import type { PlacedWall } from './wall-change.js';
import { wallCount } from './wall-groups.js';

/** One number of a wall, whatever it measures: a rate, a loss, a time. */
export interface WallValue extends PlacedWall {
  readonly value: number;
}

export interface WallComparison {
  readonly id: string;
  readonly label: string;
  readonly quantity: string;
  /** Of a difference; a ratio has none. */
  readonly unit: string;
  readonly level: number;
  /** `ratio`: of geometric means, judged on the logarithms, so that all values must be positive. */
  readonly scale: 'difference' | 'ratio';
  /** Beyond those of the comparison itself. */
  readonly assumptions?: readonly string[];
}

/**
 * Treated against untreated walls in one number of each wall, walls as the units, in the design that their blocks make:
 * without blocks Welch's interval, in pairs Student's over pairs, in other blocks least squares on arm and block. A ratio is
 * the exponential of the difference of mean logarithms, and so are its limits.
 *
 * @example
 * const rates = design.walls.map((wall, at) => ({ ...wall, value: wall.side === 'treated' ? 0.012 + 0.0001 * at : 0.008 + 0.0001 * at }));
 * const what = { id: 'rate-ratio', label: 'Ratio of rates', quantity: 'drying rate', unit: 'ratio', level: 0.95, scale: 'ratio' };
 * compareWalls(rates, what).estimate.estimate // 1.44
 */
export function compareWalls(walls: readonly WallValue[], what: WallComparison): Answer {
  const { id, label, quantity, level, scale } = what;
  const { design } = comparisonDesign(walls);
  const isRatio = scale === 'ratio';
  try {
    if (isRatio) checkPositive(walls);
    const numberOf = ({ value }: WallValue) => (isRatio ? Math.log(value) : value);
    const { method, result } = differenceOfWalls(design, numberOf, level);
    const { estimate, interval, standardError, degreesOfFreedom, pValue } = result;
    const back = isRatio ? Math.exp : (value: number) => value;
    const answer: Estimate = {
      id,
      label,
      quantity: `treated walls’ ${quantity} ${isRatio ? 'over' : 'less'} untreated walls’`,
      unit: isRatio ? 'ratio' : what.unit,
      estimate: back(estimate),
      interval: { level, lower: back(interval.lower), upper: back(interval.upper) },
      // That of a ratio would be of its logarithm, which nobody reads.
      ...(isRatio ? {} : { standardError }),
      degreesOfFreedom,
      pValue,
      method: `${isRatio ? 'exponential of the ' : ''}${wording[method]}${isRatio ? ' on the logarithms' : ''}`,
      assumptions: [
        'walls are independent of each other, apart from their block',
        `the walls’ ${isRatio ? 'logarithms' : 'numbers'} are roughly normal in each arm, or the walls are many`,
        ...(what.assumptions ?? []),
      ],
      walls: wallCount(design.walls),
    };
    return { kind: 'estimated', estimate: answer };
  } catch (error) {
    return notEstimated(id, label, error, {
      'too-few': 'there are too few walls with a value for it',
      'no-variation': 'the values do not vary between walls',
      'out-of-range': 'a ratio needs values above zero, and a wall has none',
    });
  }
}

const wording: Readonly<Record<DifferenceMethod, string>> = {
  welch: 'difference of the arms’ means over walls, interval by Welch’s t',
  'paired-blocks': 'mean difference inside pairs of walls, interval by Student’s t',
  'block-model': 'difference inside blocks by least squares on arm and block, interval by Student’s t',
};

function checkPositive(walls: readonly WallValue[]): void {
  if (walls.every(({ value }) => value > 0)) return;
  throw new StatisticsError('compareWalls', 'out-of-range', 'needs values above zero for a ratio');
}
