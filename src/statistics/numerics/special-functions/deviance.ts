import { logRemainder } from './log-remainder.js';

/**
 * Half the Poisson deviance, observed * log(observed / expected) - (observed - expected), without cancellation.
 *
 * The difference is an argument of its own because the caller usually knows it more exactly than a subtraction of
 * rounded numbers would give it. Published idea: C. Loader, "Fast and accurate computation of binomial
 * probabilities" (2000).
 */
export function deviance(observed: number, expected: number, difference: number): number {
  if (expected === 0 || expected === Number.POSITIVE_INFINITY) return Number.POSITIVE_INFINITY;
  const share = -difference / observed;
  if (share > -0.4 && share < 0.8) return -observed * logRemainder(share);
  const ratio = observed / expected;
  const logRatio = ratio < Number.MAX_VALUE ? Math.log(ratio) : Math.log(observed) - Math.log(expected);
  return observed * logRatio - difference;
}
