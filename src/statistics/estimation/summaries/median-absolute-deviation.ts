import { medianAbsoluteDeviation as deviationOf } from 'simple-statistics';
import { checkSample } from '../../checked-input.js';

/**
 * Median distance of the values from their median. Times 1.4826 it is the standard deviation of normal values, and a few wild ones hardly
 * move it; that factor is not applied here.
 *
 * @throws StatisticsError `too-few` for no values, `not-finite`
 * @example medianAbsoluteDeviation([1, 1, 2, 2, 4, 6, 9]) // 1
 */
export function medianAbsoluteDeviation(values: readonly number[]): number {
  checkSample('medianAbsoluteDeviation', 'values', values, 1);
  return deviationOf(values as number[]);
}
