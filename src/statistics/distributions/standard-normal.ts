import {
  normalCentralProbability,
  normalDensity,
  normalUpperTail,
} from '../numerics/special-functions/normal-tails.js';

/**
 * The z that standard normal values exceed with probability q, for 0 < q < 1.
 *
 * A rational first guess (Abramowitz and Stegun 26.2.23, good to 4.5e-4), then two steps of Halley's method, each of
 * which triples the digits. Around the middle the steps compare central probabilities, which do not cancel there.
 */
export function standardNormalUpperQuantile(q: number): number {
  if (q > 0.5) return -standardNormalUpperQuantile(1 - q);
  let z = firstGuess(q);
  for (let step = 0; step < 2; step++) {
    const excess = q > 0.3 ? 0.5 - q - normalCentralProbability(z) : normalUpperTail(z) - q;
    const newton = excess / normalDensity(z);
    z += newton / (1 - 0.5 * z * newton);
  }
  return z;
}

function firstGuess(q: number): number {
  const root = Math.sqrt(-2 * Math.log(q));
  const numerator = 2.515517 + root * (0.802853 + root * 0.010328);
  const denominator = 1 + root * (1.432788 + root * (0.189269 + root * 0.001308));
  return root - numerator / denominator;
}
