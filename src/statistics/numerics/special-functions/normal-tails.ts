import { millsRatio } from './mills-ratio.js';

const inverseRootTwoPi = 0.3989422804014327;

/** Density of the standard normal distribution; the square is split in two so that far tails keep all their digits. */
export function normalDensity(z: number): number {
  const size = Math.abs(z);
  if (size < 1) return inverseRootTwoPi * Math.exp(-0.5 * z * z);
  if (size > 39) return 0;
  const coarse = Math.round(size * 16) / 16;
  return inverseRootTwoPi * Math.exp(-0.5 * coarse * coarse) * Math.exp(-0.5 * (size - coarse) * (size + coarse));
}

/** Probability above z under the standard normal distribution, to full relative precision. */
export function normalUpperTail(z: number): number {
  return z >= 0 ? normalDensity(z) * millsRatio(z) : 1 - normalDensity(z) * millsRatio(-z);
}

/**
 * Probability between 0 and z (negative for z below 0), to full relative precision near 0 where a difference of tails
 * would cancel. Series density(z) * (z + z^3/3 + z^5/(3*5) + ...) up to |z| = 1.
 */
export function normalCentralProbability(z: number): number {
  if (z < 0) return -normalCentralProbability(-z);
  if (z > 1) return 0.5 - normalUpperTail(z);
  const square = z * z;
  let term = z;
  let sum = z;
  for (let odd = 3; term > sum * 1e-17; odd += 2) {
    term *= square / odd;
    sum += term;
  }
  return normalDensity(z) * sum;
}
