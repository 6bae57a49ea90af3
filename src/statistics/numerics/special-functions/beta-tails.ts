import { integrateDecay } from '../quadrature/integrate-decay.js';
import { betaFraction, betaSeries } from './beta-expansions.js';
import { deviance } from './deviance.js';
import { logRemainder } from './log-remainder.js';
import { stirlingExcess } from './stirling-excess.js';

/**
 * Regularised incomplete beta functions of one pair of shapes a and b. A point is given three times: as x, as
 * y = 1 - x, and as `excess` = a y - b x, because callers know each of them more exactly than it could be computed
 * from the others.
 */
export interface BetaTails {
  /** x^a y^b / B(a, b): the density by log(x / y), from which both tails are built. */
  readonly weight: (x: number, y: number, excess: number) => number;
  readonly below: (x: number, y: number, excess: number) => number;
  readonly above: (x: number, y: number, excess: number) => number;
}

/** When both shapes are above this, the continued fraction takes too many terms and the density is integrated. */
const manyTerms = 5000;

export function betaTails(a: number, b: number): BetaTails {
  const total = a + b;
  const stirling = stirlingExcess(total) - stirlingExcess(a) - stirlingExcess(b);
  const scale = Math.sqrt((Math.max(a, b) / total) * (Math.min(a, b) / (2 * Math.PI))) * Math.exp(stirling);

  const weight = (x: number, y: number, excess: number): number =>
    scale * Math.exp(-deviance(a, total * x, excess) - deviance(b, total * y, -excess));

  return {
    weight,
    below: (x, y, excess) => sideBelow({ a, b, weight }, x, y, excess),
    above: (x, y, excess) => sideBelow(mirrored({ a, b, weight }), y, x, -excess),
  };
}

interface Side {
  readonly a: number;
  readonly b: number;
  readonly weight: BetaTails['weight'];
}

function mirrored({ a, b, weight }: Side): Side {
  return { a: b, b: a, weight: (x, y, excess) => weight(y, x, -excess) };
}

function sideBelow(side: Side, x: number, y: number, excess: number): number {
  const { a, b, weight } = side;
  if (x === 0) return 0;
  if (y === 0) return 1;
  if (seriesIsFast(a, b, x)) return (weight(x, y, excess) / a) * betaSeries(a, b, x);
  if (seriesIsFast(b, a, y)) {
    const opposite = (weight(x, y, excess) / b) * betaSeries(b, a, y);
    return opposite < 0.8 ? 1 - opposite : aboveForSmallShape(mirrored(side), y, x);
  }
  if (excess < 0) return 1 - sideBelow(mirrored(side), y, x, -excess);
  if (Math.min(a, b) > manyTerms) return weight(x, y, excess) * integralBelow(a, b, x, y, excess);
  return weight(x, y, excess) / betaFraction(a, b, x, y, excess);
}

function seriesIsFast(a: number, b: number, x: number): boolean {
  return x < 0.7 && (a + b) * x < 0.7 * (a + 1);
}

/**
 * Probability above x when the first shape is below 1 and nearly all of the distribution lies below x.
 *
 * From x to h the powers of (1 - t) are expanded and integrated term by term, which does not cancel however small the
 * shape is; the rest lies above h.
 */
function aboveForSmallShape(side: Side, x: number, y: number): number {
  const { a, b, weight } = side;
  // Far enough out that the probability above is no longer a small remainder of a series for the one below.
  const middle = Math.min(0.5, 0.8 / b);
  if (x >= middle) return 1 - (weight(x, y, a * y - b * x) / a) * betaSeries(a, b, x);
  const logRatio = Math.log(x / middle);
  let sum = -Math.expm1(a * logRatio) / a;
  let coefficient = 1;
  for (let n = 1; n < 200; n++) {
    coefficient *= ((n - b) / n) * middle;
    const term = (-coefficient * Math.expm1((a + n) * logRatio)) / (a + n);
    sum += term;
    if (Math.abs(term) < 1e-17 * sum) break;
  }
  const excess = a * (1 - middle) - b * middle;
  const density = weight(middle, 1 - middle, excess) * Math.exp(-b * Math.log1p(-middle));
  return density * sum + sideBelow(mirrored(side), 1 - middle, middle, -excess);
}

function integralBelow(a: number, b: number, x: number, y: number, excess: number): number {
  const product = x * y;
  const slope = (excess + x - y) / product;
  const spread = 1 / Math.sqrt((a - 1) / (x * x) + (b - 1) / (y * y));
  const scale = 1 / (Math.abs(slope) + 1 / spread);
  const integrand = (s: number): number =>
    Math.exp((a - 1) * logRemainder(-s / x) + (b - 1) * logRemainder(s / y) - slope * s);
  return integrateDecay(integrand, scale, x) / product;
}
