import { checkedResult, checkLevel, checkPositive } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';
import { type Precision, powerOfT } from './power-of-t.js';

/**
 * The smallest effect that data of this precision would have shown with the stated power: with a smaller one, an interval that
 * includes zero says little. It follows from the standard error and the degrees of freedom, not from the estimate; the power
 * at the estimate itself would only repeat the p-value.
 *
 * @param options `power`: 0.8 unless told, above one less the level
 * @returns positive, in the unit of the standard error
 * @throws StatisticsError `out-of-range`, `not-finite`
 * @example smallestDetectable({ standardError: 0.3, degreesOfFreedom: 22 }) // 0.879
 */
export function smallestDetectable(precision: Precision, options: { readonly power?: number } = {}): number {
  const { power = 0.8 } = options;
  const { standardError, level = 0.95 } = precision;
  checkLevel('smallestDetectable', level);
  if (!(power > 1 - level && power < 1)) {
    const what = `needs a power above ${1 - level}, the chance without any effect, and below 1, got ${power}`;
    throw new StatisticsError('smallestDetectable', 'out-of-range', what);
  }
  checkPositive('smallestDetectable', 'standard error', standardError);
  // In standard errors, so that the unit does not matter.
  const reaches = (steps: number) => powerOfT(steps, { ...precision, standardError: 1 }) >= power;
  let low = 0;
  let high = 1;
  while (!reaches(high)) [low, high] = [high, 2 * high];
  while (high - low > 1e-12 * high) {
    const middle = (low + high) / 2;
    if (reaches(middle)) high = middle;
    else low = middle;
  }
  const { smallest } = checkedResult('smallestDetectable', { smallest: ((low + high) / 2) * standardError });
  return smallest;
}
