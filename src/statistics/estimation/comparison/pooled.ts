import { checkLevel, checkSample } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';
import { momentsOf } from '../summaries/moments.js';
import { judgedByT, type LevelOption, type MeanComparison } from './mean-comparison.js';

/**
 * Difference of two means, x less y, where both groups have the same spread (Student's two-sample t). It needs only one
 * value in one of the groups, for it borrows the spread of the other; prefer `welch` where equal spread is not known.
 *
 * @throws StatisticsError `too-few` without a value in a group or with fewer than three in all, `no-variation` when neither varies
 * @example pooled([-3.1, -1.8, -2.6, -2.2], [-1.2, -2.0, -0.6, -1.4]).degreesOfFreedom // 6
 */
export function pooled(
  x: readonly number[],
  y: readonly number[],
  options: LevelOption = {},
): MeanComparison<'pooled'> {
  const level = options.level ?? 0.95;
  checkLevel('pooled', level);
  checkSample('pooled', 'x', x, 1);
  checkSample('pooled', 'y', y, 1);
  const spread = pooledSpread(x, y);
  const [first, second] = [momentsOf(x), momentsOf(y)];
  return judgedByT({
    kind: 'pooled',
    estimate: first.mean - second.mean,
    standardError: spread.standardDeviation * Math.sqrt(1 / x.length + 1 / y.length),
    degreesOfFreedom: spread.degreesOfFreedom,
    level,
    n: { x: x.length, y: y.length },
  });
}

/**
 * The standard deviation within two groups, weighted by their degrees of freedom.
 *
 * @example pooledSpread([1, 2, 3], [4, 8]) // { standardDeviation: 1.826, degreesOfFreedom: 3 }
 */
export function pooledSpread(
  x: readonly number[],
  y: readonly number[],
): { readonly standardDeviation: number; readonly degreesOfFreedom: number } {
  checkSample('pooledSpread', 'x', x, 1);
  checkSample('pooledSpread', 'y', y, 1);
  const degreesOfFreedom = x.length + y.length - 2;
  if (degreesOfFreedom < 1) {
    throw new StatisticsError('pooledSpread', 'too-few', 'needs at least 3 values in all, got 2; add units');
  }
  const squares = momentsOf(x).squares + momentsOf(y).squares;
  return {
    standardDeviation: Math.sqrt(squares / degreesOfFreedom),
    degreesOfFreedom,
  };
}
