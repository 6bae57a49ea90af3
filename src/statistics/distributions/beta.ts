import { checkPositive } from '../checked-input.js';
import { betaTails } from '../numerics/special-functions/beta-tails.js';
import { minusProduct } from '../numerics/special-functions/minus-product.js';
import { continuousDistribution } from './continuous-distribution.js';
import type { Distribution } from './distribution.js';
import { logRatioQuantile, pointFromRatio } from './log-odds-quantile.js';

/**
 * Beta distribution on 0 to 1 with the given shapes; mean a / (a + b).
 *
 * Where a shape is below 1 the density at that end is infinite.
 *
 * @throws StatisticsError when a shape is not above 0
 * @example beta(2, 3).lowerTail(0.4) // 0.5247999999999998
 */
export function beta(a: number, b: number): Distribution {
  checkPositive('beta', 'first shape', a);
  checkPositive('beta', 'second shape', b);
  const tails = betaTails(a, b);
  const total = a + b;
  const rounding = Math.min(a, b) - (total - Math.max(a, b));
  /** a - (a + b) x, with the rounding of the sum and of the product put back. */
  const excessAt = (x: number): number => minusProduct(a, total, x) - rounding * x;
  const quantile = (side: 'below' | 'above', probability: number): number => {
    const logRatio = logRatioQuantile(tails, a, b, side, probability);
    if (logRatio === Number.NEGATIVE_INFINITY) return 0;
    if (logRatio === Number.POSITIVE_INFINITY) return 1;
    return pointFromRatio(a, b, Math.exp(logRatio)).x;
  };
  return continuousDistribution('beta', {
    from: 0,
    to: 1,
    densityAt: (x) => {
      if (x === 0) return densityAtEnd(a, b);
      if (x === 1) return densityAtEnd(b, a);
      return tails.weight(x, 1 - x, excessAt(x)) / x / (1 - x);
    },
    below: (x) => tails.below(x, 1 - x, excessAt(x)),
    above: (x) => tails.above(x, 1 - x, excessAt(x)),
    pointBelow: (p) => quantile('below', p),
    pointAbove: (q) => quantile('above', q),
  });
}

function densityAtEnd(shapeThere: number, otherShape: number): number {
  if (shapeThere > 1) return 0;
  return shapeThere === 1 ? otherShape : Number.POSITIVE_INFINITY;
}
