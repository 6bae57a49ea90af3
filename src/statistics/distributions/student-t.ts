import { checkPositive } from '../checked-input.js';
import { newtonInBracket } from '../numerics/root-finding/newton-in-bracket.js';
import { betaFraction, betaSeries } from '../numerics/special-functions/beta-expansions.js';
import { stirlingExcess } from '../numerics/special-functions/stirling-excess.js';
import { StatisticsError } from '../statistics-error.js';
import type { Distribution } from './distribution.js';
import { standardNormalUpperQuantile } from './standard-normal.js';
import { symmetricDistribution } from './symmetric-distribution.js';

/** Below, degrees of freedom are no longer normal doubles and their logarithms lose all digits. */
const FEWEST_DEGREES_OF_FREEDOM = 1e-307;

const inverseRootTwoPi = 0.3989422804014327;

/**
 * Student's t distribution with any positive degrees of freedom, whole or not.
 *
 * Tails are incomplete beta functions: a series of positive terms near the middle, a continued fraction outside it.
 * The quantile is found by Newton's method on the logarithms of tail and t, where the tail is nearly a straight line.
 * With few degrees of freedom a far quantile can exceed the largest double; it is then returned as infinite.
 *
 * @throws StatisticsError when the degrees of freedom are not above 0, or below 1e-307
 * @example studentT(10).upperQuantile(0.025) // 2.2281388519862753
 */
export function studentT(degreesOfFreedom: number): Distribution {
  checkPositive('studentT', 'number of degrees of freedom', degreesOfFreedom);
  if (degreesOfFreedom < FEWEST_DEGREES_OF_FREEDOM) {
    const detail = `needs at least ${FEWEST_DEGREES_OF_FREEDOM} degrees of freedom to reckon with, got ${degreesOfFreedom}`;
    throw new StatisticsError('studentT', 'out-of-range', detail);
  }
  const half = degreesOfFreedom / 2;
  const densityAtZero = peakDensity(half);
  const densityAt = (t: number): number => densityAtZero * Math.exp(-logPeakOverDensity(t, degreesOfFreedom));

  /** t times its density, which stays a normal number far beyond where the density underflows. */
  const weightedDensity = (t: number): number => {
    const root = Math.sqrt(degreesOfFreedom);
    if (t < 1e9 * root) return t * densityAt(t);
    return root * densityAtZero * Math.exp(-degreesOfFreedom * (Math.log(t) - Math.log(root)));
  };

  /** Probability between 0 and t, for t >= 0 not far from 0. */
  const central = (t: number): number => {
    const y = t / (degreesOfFreedom / t + t);
    return weightedDensity(t) * betaSeries(0.5, half, y);
  };
  const isCentral = (t: number): boolean => t * t < 2.2 && t * t < 2 * degreesOfFreedom;

  /** Probability above t, for t > 0 away from 0. */
  const outer = (t: number): number => {
    const y = t / (degreesOfFreedom / t + t);
    const x = 1 / (1 + (t / degreesOfFreedom) * t);
    return (0.5 * weightedDensity(t)) / betaFraction(half, 0.5, x, y, 0.5 * (degreesOfFreedom * y - x));
  };
  const tailBeyond = (t: number): number => {
    if (t === Number.POSITIVE_INFINITY) return 0;
    if (t === 0) return 0.5;
    return isCentral(t) ? 0.5 - central(t) : outer(t);
  };

  /** The t above 0 with tail q, for 0 < q < 1/2: the unknown is log t, so that its relative error is what shrinks. */
  const outerQuantile = (q: number): number => {
    if (tailBeyond(Number.MAX_VALUE) >= q) return Number.POSITIVE_INFINITY;
    const nearMiddle = q > 0.3;
    const logQuantile = newtonInBracket(
      (logPoint) => {
        const t = Math.exp(logPoint);
        const probability = nearMiddle && isCentral(t) ? central(t) : tailBeyond(t);
        const rate = weightedDensity(t) / probability;
        if (nearMiddle && isCentral(t)) return { value: Math.log(probability / (0.5 - q)), slope: rate };
        return { value: -Math.log(probability / q), slope: rate };
      },
      Math.log(firstGuess(q, degreesOfFreedom, densityAtZero)),
      Math.log(Number.MIN_VALUE),
      Math.log(Number.MAX_VALUE),
    );
    return Math.exp(logQuantile);
  };
  return symmetricDistribution('studentT', densityAt, tailBeyond, outerQuantile);
}

/** Gamma(h + 1/2) / (Gamma(h) sqrt(2 pi h)), with the leading parts of Stirling's formula cancelled by hand. */
function peakDensity(half: number): number {
  const logarithm = half * Math.log1p(0.5 / half) - 0.5 + stirlingExcess(half + 0.5) - stirlingExcess(half);
  return inverseRootTwoPi * Math.exp(logarithm);
}

/** (df + 1)/2 * log(1 + t^2/df), also where t^2 overflows or t^2/df underflows. */
function logPeakOverDensity(t: number, degreesOfFreedom: number): number {
  if (degreesOfFreedom > 1e20) return 0.5 * t * t;
  const root = Math.sqrt(degreesOfFreedom);
  const size = Math.abs(t);
  const logarithm = size > 1e9 * root ? 2 * (Math.log(size) - Math.log(root)) : Math.log1p((t * t) / degreesOfFreedom);
  return 0.5 * (degreesOfFreedom + 1) * logarithm;
}

/**
 * A t near the one with tail q. With one or more degrees of freedom from the normal quantile, by the approximation of
 * Wallace and Peizer; below, from the power law of the far tail.
 */
function firstGuess(q: number, degreesOfFreedom: number, densityAtZero: number): number {
  if (degreesOfFreedom >= 1) {
    const z = standardNormalUpperQuantile(q);
    const scale = degreesOfFreedom - 2 / 3 + 0.1 / degreesOfFreedom;
    const logarithm = (((z / scale) * z) / scale) * (degreesOfFreedom - 5 / 6);
    return Math.sqrt(degreesOfFreedom * Math.expm1(Math.min(logarithm, 700)));
  }
  const logShare = (2 / degreesOfFreedom) * Math.log((q * Math.sqrt(degreesOfFreedom)) / densityAtZero);
  return Math.sqrt(degreesOfFreedom) * Math.exp(-0.5 * Math.max(Math.min(logShare, -0.1), -1400));
}
