import { stirlingExcess } from '../../numerics/special-functions/stirling-excess.js';
import { StatisticsError } from '../../statistics-error.js';

/**
 * What makes a standardised difference unbiased: Gamma(m/2) / (sqrt(m/2) Gamma((m-1)/2)) for m degrees of freedom of the
 * standard deviation (Hedges 1981, J. Educ. Stat. 6:107-128), not its usual approximation 1 - 3/(4m - 1).
 *
 * @throws StatisticsError `too-few` below 2 degrees of freedom, where the standardised difference has no mean
 * @example smallSampleCorrection(6) // 0.8686..., where the approximation says 0.8696
 */
export function smallSampleCorrection(degreesOfFreedom: number): number {
  if (!(degreesOfFreedom >= 2 && Number.isFinite(degreesOfFreedom))) {
    const what = `needs at least 2 degrees of freedom, got ${degreesOfFreedom}`;
    throw new StatisticsError('smallSampleCorrection', 'too-few', `${what}; add units`);
  }
  // The logarithm of the ratio with Stirling's leading terms cancelled by hand, so that large m lose no digits.
  const half = degreesOfFreedom / 2;
  const leading = (1 - half) * Math.log1p(-1 / degreesOfFreedom) - 0.5;
  return Math.exp(leading + stirlingExcess(half) - stirlingExcess(half - 0.5));
}
