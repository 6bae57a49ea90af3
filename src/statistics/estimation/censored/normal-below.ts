import { millsRatio } from '../../numerics/special-functions/mills-ratio.js';
import { normalDensity, normalUpperTail } from '../../numerics/special-functions/normal-tails.js';

/** Beyond this the digits of what follows cancel, and its expansion is exact. */
const FAR_BELOW = -1e3;

/** Logarithm of the standard normal lower tail, also where the tail itself would vanish, with its first two derivatives. */
export interface NormalBelow {
  readonly log: number;
  /** Density over lower tail. */
  readonly hazard: number;
  /** Minus the second derivative, between 0 and 1. */
  readonly bend: number;
}

export function normalBelow(z: number): NormalBelow {
  if (z > 0) {
    const tail = normalUpperTail(-z);
    const hazard = normalDensity(z) / tail;
    return { log: Math.log(tail), hazard, bend: hazard * (z + hazard) };
  }
  const ratio = millsRatio(-z);
  const hazard = 1 / ratio;
  return {
    log: Math.log(ratio) - (z * z) / 2 - halfLogTwoPi,
    hazard,
    bend: z < FAR_BELOW ? 1 - 1 / (z * z) : hazard * (z + hazard),
  };
}

export const halfLogTwoPi = 0.9189385332046727;
