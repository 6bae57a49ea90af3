import { checkFinite, checkPositive, checkProbability } from '../checked-input.js';
import { normalDensity, normalUpperTail } from '../numerics/special-functions/normal-tails.js';
import { checkPoint } from './check-point.js';
import type { Distribution } from './distribution.js';
import { standardNormalUpperQuantile } from './standard-normal.js';

/**
 * Normal distribution with the given mean and standard deviation (0 and 1 unless given).
 *
 * @throws StatisticsError when the mean is not finite or the standard deviation not above 0
 * @example normal().upperQuantile(0.025) // 1.9599639845400543
 */
export function normal(mean = 0, standardDeviation = 1): Distribution {
  checkFinite('normal', 'mean', mean);
  checkPositive('normal', 'standard deviation', standardDeviation);
  const standardise = (x: number): number => {
    checkPoint('normal', x);
    return (x - mean) / standardDeviation;
  };
  const deviateAbove = (q: number): number => {
    checkProbability('normal', q);
    if (q === 0) return Number.POSITIVE_INFINITY;
    if (q === 1) return Number.NEGATIVE_INFINITY;
    return standardNormalUpperQuantile(q);
  };
  return {
    density: (x) => normalDensity(standardise(x)) / standardDeviation,
    lowerTail: (x) => normalUpperTail(-standardise(x)),
    upperTail: (x) => normalUpperTail(standardise(x)),
    quantile: (p) => mean - standardDeviation * deviateAbove(p),
    upperQuantile: (q) => mean + standardDeviation * deviateAbove(q),
  };
}
