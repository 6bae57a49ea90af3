import { kernelDensityEstimation } from 'simple-statistics';
import { checkFinite, checkSample } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';
import { interquartileRange } from './interquartile-range.js';
import { standardDeviation } from './standard-deviation.js';

export interface KernelDensity {
  /** Standard deviation of the normal curve that stands for each value. */
  readonly bandwidth: number;
  /** Share of the values per unit at a point. */
  readonly at: (point: number) => number;
}

/**
 * How densely values lie: the mean of a normal curve about each. The bandwidth is Scott's for normal values, 1.06 times the smaller of
 * the standard deviation and the interquartile range over 1.34, times n to the power −1/5. For a picture, not for an interval.
 *
 * @throws StatisticsError `too-few` below two values, `not-finite`, `no-variation` where the middle half of the values are equal
 * @example kernelDensity([1, 2, 2.5, 3, 4]).at(2.5) // 0.3385
 * @source Scott 1992, Multivariate Density Estimation, page 145 (from memory)
 */
export function kernelDensity(values: readonly number[]): KernelDensity {
  const where = 'kernelDensity';
  checkSample(where, 'values', values, 2);
  const spread = Math.min(standardDeviation(values), interquartileRange(values) / 1.34);
  const bandwidth = 1.06 * spread * values.length ** -0.2;
  if (!(bandwidth > 0))
    throw new StatisticsError(where, 'no-variation', 'needs values of which the middle half vary; show them as points');
  const density = kernelDensityEstimation(values as number[], 'gaussian', bandwidth);
  return {
    bandwidth,
    at: (point) => {
      checkFinite(where, 'point', point);
      return density(point);
    },
  };
}
