import { checkPositive } from '../checked-input.js';
import { betaTails } from '../numerics/special-functions/beta-tails.js';
import { continuousDistribution } from './continuous-distribution.js';
import type { Distribution } from './distribution.js';
import { logRatioQuantile, pointFromRatio } from './log-odds-quantile.js';

/**
 * Fisher's F distribution of a ratio of two mean squares, with any positive degrees of freedom.
 *
 * With fewer than two numerator degrees of freedom the density at 0 is infinite. A quantile beyond the range of
 * doubles, possible with very few degrees of freedom, is returned as 0 or infinite.
 *
 * @throws StatisticsError when degrees of freedom are not above 0
 * @example fisherF(3, 20).upperQuantile(0.05) // 3.098391212140781
 */
export function fisherF(numeratorDegreesOfFreedom: number, denominatorDegreesOfFreedom: number): Distribution {
  checkPositive('fisherF', 'number of numerator degrees of freedom', numeratorDegreesOfFreedom);
  checkPositive('fisherF', 'number of denominator degrees of freedom', denominatorDegreesOfFreedom);
  const a = numeratorDegreesOfFreedom / 2;
  const b = denominatorDegreesOfFreedom / 2;
  const tails = betaTails(a, b);
  const tail = (side: 'weight' | 'below' | 'above', f: number): number => {
    const { x, y, excess } = pointFromRatio(a, b, f);
    return tails[side](x, y, excess);
  };
  const densityAtZero = a > 1 ? 0 : a === 1 ? 1 : Number.POSITIVE_INFINITY;
  return continuousDistribution('fisherF', {
    from: 0,
    to: Number.POSITIVE_INFINITY,
    densityAt: (f) => (f === 0 ? densityAtZero : tail('weight', f) / f),
    below: (f) => tail('below', f),
    above: (f) => tail('above', f),
    pointBelow: (p) => Math.exp(logRatioQuantile(tails, a, b, 'below', p)),
    pointAbove: (q) => Math.exp(logRatioQuantile(tails, a, b, 'above', q)),
  });
}
