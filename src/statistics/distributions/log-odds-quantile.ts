import type { BetaTails } from '../numerics/special-functions/beta-tails.js';
import { logQuantile } from './log-quantile.js';
import { standardNormalUpperQuantile } from './standard-normal.js';

/** Point of a beta distribution from f, the odds x / y divided by a / b. */
export function pointFromRatio(a: number, b: number, f: number): { x: number; y: number; excess: number } {
  const odds = (a / b) * f;
  const y = 1 / (1 + odds);
  return { x: odds > 1 ? 1 / (1 + 1 / odds) : odds * y, y, excess: a * (1 - f) * y };
}

/**
 * Quantile of the beta distribution as the logarithm of f = (x / y) / (a / b), which has Fisher's F distribution with
 * 2a and 2b degrees of freedom. One search serves both distributions.
 */
export function logRatioQuantile(
  tails: BetaTails,
  a: number,
  b: number,
  side: 'below' | 'above',
  probability: number,
): number {
  const start = side === 'below' ? logFirstGuess(a, b, tails, probability) : -logFirstGuess(b, a, tails, probability);
  const at = (log: number) => pointFromRatio(a, b, Math.exp(log));
  return logQuantile(
    {
      side,
      probability: (log) => {
        const { x, y, excess } = at(log);
        return tails[side](x, y, excess);
      },
      weight: (log) => {
        const { x, y, excess } = at(log);
        return tails.weight(x, y, excess);
      },
    },
    probability,
    start,
  );
}

/** A guess at the log of f with lower tail p: Carter's approximation for large shapes, else the power law near 0. */
function logFirstGuess(a: number, b: number, tails: BetaTails, p: number): number {
  const z = standardNormalUpperQuantile(p);
  if (a > 1 && b > 1) {
    const lambda = (z * z - 3) / 6;
    const inverseA = 1 / (2 * a - 1);
    const inverseB = 1 / (2 * b - 1);
    const h = 2 / (inverseA + inverseB);
    if (h + lambda > 0) {
      return -2 * ((z * Math.sqrt(h + lambda)) / h - (inverseB - inverseA) * (lambda + 5 / 6 - 2 / (3 * h)));
    }
  }
  const centre = Math.log(tails.weight(a / (a + b), b / (a + b), 0));
  return Math.min(0, (Math.log(p) + Math.log(a) - centre) / a);
}
