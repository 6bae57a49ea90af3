import { gaussLegendre } from '../quadrature/gauss-legendre.js';
import { normalDensity, normalUpperTail } from './normal-tails.js';

const rule = gaussLegendre(8);

/** Probability of a standard normal value between z - width and z, without cancellation however small the width. */
export function normalBetween(z: number, width: number): number {
  const low = z - width;
  if (width < 1) {
    let sum = 0;
    for (let i = 0; i < rule.nodes.length; i++) {
      sum += (rule.weights[i] as number) * normalDensity(z + 0.5 * width * ((rule.nodes[i] as number) - 1));
    }
    return 0.5 * width * sum;
  }
  if (low > 0) return normalUpperTail(low) - normalUpperTail(z);
  if (z < 0) return normalUpperTail(-z) - normalUpperTail(-low);
  return 1 - normalUpperTail(z) - normalUpperTail(-low);
}
