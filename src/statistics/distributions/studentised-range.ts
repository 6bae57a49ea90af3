import { checkPositive } from '../checked-input.js';
import { StatisticsError } from '../statistics-error.js';
import { chiMixture } from './chi-mixture.js';
import { continuousDistribution } from './continuous-distribution.js';
import type { Distribution } from './distribution.js';
import { fisherF } from './fisher-f.js';
import { logQuantile } from './log-quantile.js';
import { normalRange } from './normal-range.js';
import { studentT } from './student-t.js';

/**
 * Studentised range: the range of several independent normal means over an independent estimate of their standard
 * error. The distribution behind Tukey's intervals for all pairs of means.
 *
 * Both tails are double integrals of positive functions; relative error below 1e-9 in either tail. With two groups it
 * is the square root of twice an F with 1 numerator degree of freedom, computed as such.
 *
 * @param groups how many means, 2 or more
 * @throws StatisticsError when groups is not a whole number of 2 or more, or the degrees of freedom not above 0
 * @example studentisedRange(3, 10).upperQuantile(0.05) // 3.8767767500131827
 */
export function studentisedRange(groups: number, degreesOfFreedom: number): Distribution {
  if (!Number.isSafeInteger(groups) || groups < 2) {
    throw new StatisticsError('studentisedRange', 'out-of-range', `needs 2 or more groups, got ${groups}`);
  }
  checkPositive('studentisedRange', 'number of degrees of freedom', degreesOfFreedom);
  return groups === 2 ? rangeOfTwo(degreesOfFreedom) : rangeOfMany(groups, degreesOfFreedom);
}

function rangeOfTwo(degreesOfFreedom: number): Distribution {
  const f = fisherF(1, degreesOfFreedom);
  const t = studentT(degreesOfFreedom);
  return continuousDistribution('studentisedRange', {
    from: 0,
    to: Number.POSITIVE_INFINITY,
    densityAt: (q) => Math.SQRT2 * t.density(q / Math.SQRT2),
    below: (q) => f.lowerTail((q * q) / 2),
    above: (q) => f.upperTail((q * q) / 2),
    pointBelow: (p) => Math.SQRT2 * Math.sqrt(f.quantile(p)),
    pointAbove: (p) => Math.SQRT2 * Math.sqrt(f.upperQuantile(p)),
  });
}

/** Beyond this point the tail is a pure power of q, and squares of q would overflow. */
const farthest = 1e120;

function rangeOfMany(groups: number, degreesOfFreedom: number): Distribution {
  const range = normalRange(groups);
  const average = (conditional: (width: number, s: number) => number, q: number, power: number, tail: boolean) => {
    const pull = tail ? (q * q) / 2 : 0;
    const centre = Math.sqrt((degreesOfFreedom + power) / (degreesOfFreedom + pull));
    const width = Math.min(0.5, 0.7 / (centre * Math.sqrt(degreesOfFreedom + pull)));
    const mixture = chiMixture(degreesOfFreedom, -20 - Math.log(Math.max(q, 1)));
    return mixture((s) => conditional(q * s, s), Math.log(centre), width);
  };
  const below = (q: number): number => average(range.below, q, 0, false);
  const above = (q: number): number => {
    if (q > farthest) return above(farthest) * (q / farthest) ** -degreesOfFreedom;
    return average(range.above, q, 0, q > 4);
  };
  /** Density times a factor, taken inside the integral so that a large factor saves a density that would underflow. */
  const scaledDensity = (q: number, factor: number): number => {
    if (q > farthest) return scaledDensity(farthest, factor * (farthest / q)) * (q / farthest) ** -degreesOfFreedom;
    return average((width, s) => s * factor * range.density(width), q, 1, q > 4);
  };

  const quantile = (side: 'below' | 'above', probability: number): number => {
    const tails = { below, above };
    return Math.exp(
      logQuantile(
        {
          side,
          probability: (log) => tails[side](Math.exp(log)),
          weight: (log) => scaledDensity(Math.exp(log), Math.exp(log)),
        },
        probability,
        Math.log(firstGuess(groups, degreesOfFreedom, side, probability)),
      ),
    );
  };
  return continuousDistribution('studentisedRange', {
    from: 0,
    to: Number.POSITIVE_INFINITY,
    densityAt: (q) => scaledDensity(q, 1),
    below,
    above,
    pointBelow: (p) => quantile('below', p),
    pointAbove: (p) => quantile('above', p),
  });
}

/** Above: as if every pair were apart on its own (Bonferroni). Below: the power law of a range near 0. */
function firstGuess(groups: number, degreesOfFreedom: number, side: 'below' | 'above', probability: number): number {
  if (side === 'above') {
    const pairs = (groups * (groups - 1)) / 2;
    return Math.SQRT2 * studentT(degreesOfFreedom).upperQuantile(probability / pairs / 2);
  }
  return 2 * probability ** (1 / (groups - 1));
}
