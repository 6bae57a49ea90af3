import { checkedResult, checkLevel, checkSample } from '../../checked-input.js';
import { studentT } from '../../distributions/student-t.js';
import type { Interval } from '../../interval.js';
import { StatisticsError } from '../../statistics-error.js';
import { type Moments, momentsOf } from '../summaries/moments.js';
import { fieller } from './fieller.js';
import type { GroupSizes, LevelOption } from './mean-comparison.js';
import { pooledSpread } from './pooled.js';

export interface RatioOfMeans {
  readonly kind: 'ratio-of-means';
  /** Mean of x over mean of y. */
  readonly estimate: number;
  readonly degreesOfFreedom: number;
  /** Absent where the mean of y cannot be distinguished from zero at this level: then no finite interval holds the ratio. */
  readonly interval?: Interval;
  readonly n: GroupSizes;
}

export interface RatioOptions extends LevelOption {
  /** Whether the groups are taken to spread alike; `unequal` unless told. */
  readonly spread?: 'equal' | 'unequal';
}

/**
 * Ratio of two independent means, x over y, with Fieller's interval (1954, J. R. Stat. Soc. B 16:175-185): the ratios r at
 * which mean(x) - r mean(y) cannot be distinguished from zero by Student's t. Exact for normal groups of equal
 * spread; for unequal spread the degrees of freedom are Satterthwaite's at the estimated ratio.
 *
 * @throws StatisticsError `out-of-range` when the mean of y is zero, `too-few`, `not-finite`, `no-variation`
 * @example ratioOfMeans([8, 9, 10], [11, 12, 13, 12]).estimate // 0.75
 */
export function ratioOfMeans(x: readonly number[], y: readonly number[], options: RatioOptions = {}): RatioOfMeans {
  const { level = 0.95, spread = 'unequal' } = options;
  checkLevel('ratioOfMeans', level);
  checkSample('ratioOfMeans', 'x', x, 2);
  checkSample('ratioOfMeans', 'y', y, 2);
  const [above, below] = [momentsOf(x), momentsOf(y)];
  if (below.mean === 0) {
    throw new StatisticsError(
      'ratioOfMeans',
      'out-of-range',
      'needs a mean of y that is not zero; compare by difference',
    );
  }
  const estimate = above.mean / below.mean;
  const errors = spread === 'equal' ? pooledErrors(x, y) : separateErrors(above, below, estimate);
  if (errors.x === 0 && errors.y === 0) {
    throw new StatisticsError('ratioOfMeans', 'no-variation', 'needs values that vary in a group; check the data');
  }
  const quantile = studentT(errors.degreesOfFreedom).upperQuantile((1 - level) / 2);
  const interval = fieller(above.mean, below.mean, {
    numerator: quantile ** 2 * errors.x,
    denominator: quantile ** 2 * errors.y,
    covariance: 0,
  });
  return checkedResult('ratioOfMeans', {
    kind: 'ratio-of-means',
    estimate,
    degreesOfFreedom: errors.degreesOfFreedom,
    ...(interval && { interval: { level, ...interval } }),
    n: { x: x.length, y: y.length },
  });
}

/** Squared standard errors of the two means. */
interface SquaredErrors {
  readonly x: number;
  readonly y: number;
  readonly degreesOfFreedom: number;
}

function pooledErrors(x: readonly number[], y: readonly number[]): SquaredErrors {
  const { standardDeviation, degreesOfFreedom } = pooledSpread(x, y);
  return { x: standardDeviation ** 2 / x.length, y: standardDeviation ** 2 / y.length, degreesOfFreedom };
}

function separateErrors(above: Moments, below: Moments, ratio: number): SquaredErrors {
  const errors = { x: above.variance / above.n, y: below.variance / below.n };
  const share = errors.x / (errors.x + ratio ** 2 * errors.y);
  return { ...errors, degreesOfFreedom: 1 / (share ** 2 / (above.n - 1) + (1 - share) ** 2 / (below.n - 1)) };
}
