import { chiSquare } from '../../statistics/index.js';
import { gaussLegendre } from '../../statistics/numerics/quadrature/gauss-legendre.js';

/** How well the spread between walls is known: from so many degrees of freedom of a pilot. */
export interface UncertainWalls {
  /** Of a wall's change as the pilot measured it. */
  readonly variance: number;
  readonly degreesOfFreedom: number;
  /** What of it stations, visits and readings of the pilot account for. */
  readonly inside: number;
}

/** Enough for three digits of a chance from three degrees of freedom on. */
const nodes = gaussLegendre(7);

export interface PossibleSpread {
  readonly probability: number;
  readonly walls: number;
}

/**
 * Spreads between walls that a pilot leaves possible, for the mean over them: the variance is the sum of squares over a chi-square, drawn at
 * fixed probabilities. With few degrees of freedom the large ones are very large, which one number would hide.
 */
export function possibleSpreads({ variance, degreesOfFreedom, inside }: UncertainWalls): readonly PossibleSpread[] {
  const squares = chiSquare(degreesOfFreedom);
  return Array.from(nodes.nodes, (node, at) => {
    const total = (degreesOfFreedom * variance) / squares.quantile((1 + node) / 2);
    return { probability: (nodes.weights[at] ?? 0) / 2, walls: Math.sqrt(Math.max(0, total - inside)) };
  });
}
