import { integrateDecay } from '../quadrature/integrate-decay.js';
import { deviance } from './deviance.js';
import { logRemainder } from './log-remainder.js';
import { stirlingExcess } from './stirling-excess.js';

/**
 * Regularised incomplete gamma functions of one shape a. In all of them `excess` is a - x, an argument of its own
 * because callers know it more exactly than a subtraction would.
 */
export interface GammaTails {
  /** x^a exp(-x) / Gamma(a): the density by log x, from which both tails are built. */
  readonly weight: (x: number, excess: number) => number;
  readonly below: (x: number, excess: number) => number;
  readonly above: (x: number, excess: number) => number;
}

/** From this shape on, series and fraction take too many terms near the middle, and the density is integrated there. */
const manyTerms = 5000;

export function gammaTails(a: number): GammaTails {
  const scale = Math.sqrt(a / (2 * Math.PI)) * Math.exp(-stirlingExcess(a));

  const weight = (x: number, excess: number): number => scale * Math.exp(-deviance(a, x, excess));

  const below = (x: number, excess: number): number => {
    if (x === 0) return 0;
    if (x === Number.POSITIVE_INFINITY) return 1;
    if (x < 1 && a < 1) return (weight(x, excess) / a) * lowerSeries(a, x);
    if (excess < 0) return 1 - above(x, excess);
    if (a > manyTerms && x > 0.7 * a) return weight(x, excess) * lowerIntegral(a, x, excess);
    return (weight(x, excess) / a) * lowerSeries(a, x);
  };
  const above = (x: number, excess: number): number => {
    if (x === 0) return 1;
    if (x === Number.POSITIVE_INFINITY) return 0;
    if (x < 1 && a < 1) return upperForSmallShape(a, x);
    if (excess >= 0) return 1 - below(x, excess);
    if (a > manyTerms) return weight(x, excess) * upperIntegral(a, x, excess);
    return weight(x, excess) * upperFraction(excess, a, x);
  };

  /** For a < 1 and x < 1: the integral from x to 1 term by term, which does not cancel however small a is. */
  const upperForSmallShape = (shape: number, x: number): number => {
    const logX = Math.log(x);
    let sum = -Math.expm1(shape * logX) / shape;
    let coefficient = 1;
    for (let n = 1; n < 20; n++) {
      coefficient /= -n;
      sum -= (coefficient * Math.expm1((shape + n) * logX)) / (shape + n);
    }
    const atOne = weight(1, shape - 1);
    return atOne * (Math.E * sum + upperFraction(shape - 1, shape, 1));
  };
  return { weight, below, above };
}

/** 1 + x/(a+1) + x^2/((a+1)(a+2)) + ..., all terms positive. */
function lowerSeries(a: number, x: number): number {
  let term = 1;
  let sum = 1;
  for (let n = 1; term > sum * 1e-17; n++) {
    term *= x / (a + n);
    sum += term;
  }
  return sum;
}

/** Legendre's continued fraction 1/(x+1-a - 1(1-a)/(x+3-a - 2(2-a)/(x+5-a - ...))), by the modified Lentz method. */
function upperFraction(excess: number, a: number, x: number): number {
  let denominator = 1 - excess;
  let ratio = 1 / denominator;
  let numeratorRatio = Number.POSITIVE_INFINITY;
  let value = ratio;
  for (let n = 1; n < 5000; n++) {
    const partial = n * (a - n);
    denominator = x - a + 2 * n + 1;
    ratio = 1 / (denominator + partial * ratio);
    numeratorRatio = denominator + partial / numeratorRatio;
    const factor = numeratorRatio * ratio;
    value *= factor;
    if (Math.abs(factor - 1) < 2e-16) break;
  }
  return value;
}

function lowerIntegral(a: number, x: number, excess: number): number {
  const slope = (excess - 1) / x;
  const scale = 1 / (Math.abs(slope) + Math.sqrt(a - 1) / x);
  return integrateDecay((s) => Math.exp((a - 1) * logRemainder(-s / x) - slope * s), scale, x) / x;
}

function upperIntegral(a: number, x: number, excess: number): number {
  const slope = (1 - excess) / x;
  const scale = 1 / (slope + Math.sqrt(a - 1) / x);
  return (
    integrateDecay((s) => Math.exp((a - 1) * logRemainder(s / x) - slope * s), scale, Number.POSITIVE_INFINITY) / x
  );
}
