import { checkPositive } from '../checked-input.js';
import type { Distribution } from './distribution.js';
import { gammaDistribution } from './gamma.js';

/**
 * Chi-square distribution with any positive degrees of freedom: gamma with shape df / 2 and rate 1 / 2.
 *
 * With fewer than two degrees of freedom the density at 0 is infinite.
 *
 * @throws StatisticsError when the degrees of freedom are not above 0
 * @example chiSquare(1).upperQuantile(0.05) // 3.84145882069413
 */
export function chiSquare(degreesOfFreedom: number): Distribution {
  checkPositive('chiSquare', 'number of degrees of freedom', degreesOfFreedom);
  return gammaDistribution('chiSquare', degreesOfFreedom / 2, 0.5);
}
