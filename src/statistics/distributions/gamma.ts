import { checkPositive } from '../checked-input.js';
import { gammaTails } from '../numerics/special-functions/gamma-tails.js';
import { minusProduct } from '../numerics/special-functions/minus-product.js';
import { continuousDistribution } from './continuous-distribution.js';
import type { Distribution } from './distribution.js';
import { logQuantile } from './log-quantile.js';
import { standardNormalUpperQuantile } from './standard-normal.js';

/**
 * Gamma distribution with the given shape and rate (one over the scale); mean shape / rate.
 *
 * With a shape below 1 the density at 0 is infinite, and a small quantile below the smallest double is returned as 0.
 *
 * @throws StatisticsError when shape or rate is not above 0
 * @example gamma(2, 1).upperTail(3) // 0.19914827347145575 (4 exp(-3))
 */
export function gamma(shape: number, rate: number): Distribution {
  checkPositive('gamma', 'shape', shape);
  checkPositive('gamma', 'rate', rate);
  return gammaDistribution('gamma', shape, rate);
}

/** The gamma distribution for parameters already checked, speaking under another distribution's name. */
export function gammaDistribution(where: string, shape: number, rate: number): Distribution {
  const tails = gammaTails(shape);
  const excessAt = (x: number): number => minusProduct(shape, rate, x);

  const quantile = (side: 'below' | 'above', probability: number): number => {
    const logPoint = logQuantile(
      {
        side,
        probability: (log) => tails[side](Math.exp(log), shape - Math.exp(log)),
        weight: (log) => tails.weight(Math.exp(log), shape - Math.exp(log)),
      },
      probability,
      logFirstGuess(shape, side, probability),
    );
    return Math.exp(logPoint) / rate;
  };
  const densityAtZero = shape > 1 ? 0 : shape === 1 ? rate : Number.POSITIVE_INFINITY;
  return continuousDistribution(where, {
    from: 0,
    to: Number.POSITIVE_INFINITY,
    densityAt: (x) => (x === 0 ? densityAtZero : tails.weight(rate * x, excessAt(x)) / x),
    below: (x) => tails.below(rate * x, excessAt(x)),
    above: (x) => tails.above(rate * x, excessAt(x)),
    pointBelow: (p) => quantile('below', p),
    pointAbove: (q) => quantile('above', q),
  });
}

/** Wilson and Hilferty's cube of a normal; near 0 the power law of the lower tail instead. */
function logFirstGuess(shape: number, side: 'below' | 'above', probability: number): number {
  const z = standardNormalUpperQuantile(probability) * (side === 'above' ? 1 : -1);
  const root = 1 - 1 / (9 * shape) + z / (3 * Math.sqrt(shape));
  if (root > 0.3) return Math.log(shape) + 3 * Math.log(root);
  const lower = side === 'below' ? probability : 1 - probability;
  return Math.max(-700, (Math.log(lower) + (shape + 0.5) * Math.log1p(shape) - shape) / shape);
}
