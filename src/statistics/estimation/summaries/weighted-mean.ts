import { checkSample } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';
import { compensatedSum } from './compensated-sum.js';

/**
 * The mean in which each value counts with its weight: sum of weight times value over the sum of weights.
 *
 * @throws StatisticsError `too-few` for no values, `not-finite`, `lengths-differ`, `out-of-range` for a negative weight
 * or when all weights are 0
 * @example weightedMean([1, 5], [3, 1]) // 2
 */
export function weightedMean(values: readonly number[], weights: readonly number[]): number {
  checkSample('weightedMean', 'values', values, 1);
  checkSample('weightedMean', 'weights', weights, 1);
  if (values.length !== weights.length) {
    const detail = `needs one weight for each value, got ${values.length} values and ${weights.length} weights`;
    throw new StatisticsError('weightedMean', 'lengths-differ', detail);
  }
  const total = compensatedSum(weights);
  if (!(total > 0) || weights.some((weight) => weight < 0)) {
    throw new StatisticsError('weightedMean', 'out-of-range', 'needs weights of 0 or more, at least one above 0');
  }
  return compensatedSum(values.map((value, index) => value * (weights[index] as number))) / total;
}
