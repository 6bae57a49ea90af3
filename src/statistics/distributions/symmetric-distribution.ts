import { checkProbability } from '../checked-input.js';
import { checkPoint } from './check-point.js';
import type { Distribution } from './distribution.js';

/**
 * A distribution symmetric about 0 from its density, its tail beyond a point >= 0, and the point above 0 that has a
 * given tail below one half. Arguments are checked here, once.
 */
export function symmetricDistribution(
  where: string,
  densityAt: (x: number) => number,
  tailBeyond: (x: number) => number,
  outerQuantile: (q: number) => number,
): Distribution {
  const upperTail = (x: number): number => {
    checkPoint(where, x);
    return x >= 0 ? tailBeyond(x) : 1 - tailBeyond(-x);
  };
  const upperQuantile = (q: number): number => {
    checkProbability(where, q);
    if (q === 0) return Number.POSITIVE_INFINITY;
    if (q === 1) return Number.NEGATIVE_INFINITY;
    if (q === 0.5) return 0;
    return q < 0.5 ? outerQuantile(q) : -outerQuantile(1 - q);
  };
  return {
    density: (x) => {
      checkPoint(where, x);
      return densityAt(x);
    },
    lowerTail: (x) => upperTail(-x),
    upperTail,
    quantile: (p) => 0 - upperQuantile(p),
    upperQuantile,
  };
}
