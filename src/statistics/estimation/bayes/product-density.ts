import { gaussLegendre } from '../../numerics/quadrature/gauss-legendre.js';
import { StatisticsError } from '../../statistics-error.js';

const rule = gaussLegendre(16);

/** A distribution known by its density up to a factor, cut into panels. */
export interface PanelledDensity {
  readonly mean: number;
  readonly standardDeviation: number;
  lowerTail(x: number): number;
  upperTail(x: number): number;
  quantile(p: number): number;
}

/**
 * Makes a distribution of a smooth logarithmic density, by 16-point Gauss-Legendre quadrature on panels.
 *
 * @param breaks ascending panel ends, so close that the density is smooth inside each, reaching to where it is negligible
 */
export function panelledDensity(logDensity: (x: number) => number, breaks: readonly number[]): PanelledDensity {
  const highest = Math.max(...breaks.map(logDensity));
  const density = (x: number) => Math.exp(logDensity(x) - highest);
  const masses = breaks.slice(1).map((end, at) => integral(density, breaks[at] as number, end));
  const total = masses.reduce((sum, mass) => sum + mass, 0);
  if (!(total > 0)) {
    const what = 'needs a prior and data that overlap, but they lie too far apart';
    throw new StatisticsError('posteriorOfDifference', 'out-of-range', `${what}; check the prior`);
  }
  const expected = (f: (x: number) => number): number => {
    const parts = breaks.slice(1).map((end, at) => integral((x) => f(x) * density(x), breaks[at] as number, end));
    return parts.reduce((sum, part) => sum + part, 0) / total;
  };
  const mean = expected((x) => x);
  const share = (from: number, to: number): number => {
    const pieces = breaks.slice(1).map((end, at) => {
      const [low, high] = [Math.max(breaks[at] as number, from), Math.min(end, to)];
      if (low >= high) return 0;
      return low === breaks[at] && high === end ? (masses[at] as number) : integral(density, low, high);
    });
    return pieces.reduce((sum, piece) => sum + piece, 0) / total;
  };
  const lowerTail = (x: number) => share(Number.NEGATIVE_INFINITY, x);
  return {
    mean,
    standardDeviation: Math.sqrt(expected((x) => (x - mean) ** 2)),
    lowerTail,
    upperTail: (x) => share(x, Number.POSITIVE_INFINITY),
    quantile: (p) => halved(lowerTail, p, breaks[0] as number, breaks[breaks.length - 1] as number),
  };
}

function integral(f: (x: number) => number, from: number, to: number): number {
  const half = (to - from) / 2;
  let sum = 0;
  for (let at = 0; at < rule.nodes.length; at++) {
    sum += (rule.weights[at] as number) * f(from + half * (1 + (rule.nodes[at] as number)));
  }
  return half * sum;
}

/** Where a rising function reaches p. */
function halved(rising: (x: number) => number, p: number, from: number, to: number): number {
  let [low, high] = [from, to];
  for (let halving = 0; halving < 200; halving++) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) break;
    if (rising(middle) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
