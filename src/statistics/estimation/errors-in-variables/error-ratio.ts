import { checkedResult, checkSample } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';
import { variance } from '../summaries/variance.js';

/**
 * Variance of the errors of y over that of x, from readings repeated on the same things: the pooled variances within
 * the groups, each thing being a group.
 *
 * @throws StatisticsError `too-few` where nothing was read twice, `no-variation` where repeats never differ,
 * `out-of-range` where the ratio is no number of this machine
 * @example errorRatio([[4.1, 4.3], [6.0, 6.2]], [[31, 35], [52, 49]]) // 312.5
 */
export function errorRatio(
  repeatsOfX: readonly (readonly number[])[],
  repeatsOfY: readonly (readonly number[])[],
): number {
  const ratio = pooledWithin(repeatsOfY, 'y') / pooledWithin(repeatsOfX, 'x');
  return checkedResult('errorRatio', { ratio }).ratio;
}

function pooledWithin(groups: readonly (readonly number[])[], name: string): number {
  const where = 'errorRatio';
  const repeated = groups.filter((group) => group.length > 1);
  if (repeated.length === 0)
    throw new StatisticsError(where, 'too-few', `needs at least one thing read twice in ${name}, got none`);
  let [sum, degreesOfFreedom] = [0, 0];
  for (const group of repeated) {
    checkSample(where, name, group, 2);
    sum += variance(group) * (group.length - 1);
    degreesOfFreedom += group.length - 1;
  }
  if (!(sum > 0))
    throw new StatisticsError(where, 'no-variation', `needs repeats of ${name} that differ; check for copied readings`);
  return sum / degreesOfFreedom;
}
