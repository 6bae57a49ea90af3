import { checkSample } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';
import { compensatedSum } from './compensated-sum.js';
import { deviations } from './deviations.js';

/**
 * Autocorrelation at lag 1 of a series in its order: how much a value resembles the one before it.
 *
 * Sum of products of neighbouring deviations from the overall mean, over the sum of squared deviations: the usual
 * definition, which shrinks a little towards 0 in short series.
 *
 * @throws StatisticsError `too-few` for fewer than two values, `not-finite`, `no-variation` for a constant series
 * @example autocorrelation([1, 2, 3, 4]) // 0.25
 */
export function autocorrelation(values: readonly number[]): number {
  checkSample('autocorrelation', 'values', values, 2);
  const around = deviations(values);
  const total = compensatedSum(around.map((deviation) => deviation ** 2));
  if (total === 0) {
    throw new StatisticsError(
      'autocorrelation',
      'no-variation',
      'needs values that differ; a constant series has none',
    );
  }
  const products = around.slice(1).map((deviation, index) => deviation * (around[index] as number));
  return compensatedSum(products) / total;
}
