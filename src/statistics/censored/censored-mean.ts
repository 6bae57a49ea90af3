import { leastBetween } from '../change-point/least-between.js';
import { checkedResult, checkLevel } from '../checked-input.js';
import { studentT } from '../distributions/student-t.js';
import type { Interval } from '../interval.js';
import { millsRatio } from '../special-functions/mills-ratio.js';
import { normalUpperTail } from '../special-functions/normal-tails.js';
import { StatisticsError } from '../statistics-error.js';
import { mean } from '../summaries/mean.js';
import { standardDeviation } from '../summaries/standard-deviation.js';
import { type LeftCensored, type SplitCensored, splitCensored } from './left-censored.js';

/** A mean that counts values below their limits as what they are. */
export interface CensoredMean {
  readonly kind: 'normal' | 'lognormal';
  readonly estimate: number;
  /** From the profile of the likelihood; need not be symmetric. */
  readonly interval: Interval;
  /** Of the values, or of their natural logarithms. */
  readonly location: number;
  readonly spread: number;
  readonly logLikelihood: number;
  readonly n: number;
  readonly below: number;
}

export interface CensoredOptions {
  /** Shape of the values' distribution; normal unless told. */
  readonly kind?: 'normal' | 'lognormal';
  /** 0.95 unless told. */
  readonly level?: number;
}

/**
 * Mean of values of which some are only known to lie below a limit, by maximum likelihood: a measured value counts with its
 * density, one below its limit with the chance of lying there. No value is made up.
 *
 * The lognormal mean is exp(location + spread²/2). The shape is an assumption that values below a limit cannot contradict:
 * look at how the answer moves (`censoredMeans`).
 *
 * The interval holds every mean whose profile lies less than (n/2)·log(1 + t²/(n − 1)) below the highest, t Student's quantile
 * with n − 1 degrees of freedom: with a normal shape and nothing below a limit that is Student's interval itself, and for large
 * n it is the chi-square limit. How often it holds the truth is in `tests/simulation/calibration.md`.
 *
 * @throws StatisticsError `too-few` below two measured values, `no-variation`, `out-of-range` for lognormal values not above 0,
 *   `not-converged` where the likelihood does not limit the mean
 * @example censoredMean([{ kind: 'measured', value: 1.2 }, { kind: 'measured', value: 2.1 }, { kind: 'below', limit: 0.5 }]).estimate // 1.078
 * @source Cohen 1959, Technometrics 1:217-237, for the likelihood (from memory); the limit from the likelihood ratio of a normal
 *   mean, n·log(1 + t²/(n − 1)), derived
 */
export function censoredMean(values: readonly LeftCensored[], options: CensoredOptions = {}): CensoredMean {
  const where = 'censoredMean';
  const { kind = 'normal', level = 0.95 } = options;
  checkLevel(where, level);
  const split = splitCensored(where, values);
  const seen = kind === 'normal' ? split : logarithms(where, split);
  const scale = standardDeviation(seen.measured);
  const middle = mean(seen.measured);
  // In units of the measured spread about their mean, so that fixed steps and bounds suit every unit.
  const data = standardised(seen, middle, scale);
  // The mean of lognormal values grows with half the variance of the logarithms.
  const lift = kind === 'normal' ? 0 : scale / 2;
  const profile = (target: number) => {
    const { point, value } = leastBetween(
      (logSpread) => minusLogLikelihood(data, target - lift * Math.exp(2 * logSpread), Math.exp(logSpread)),
      -5,
      4,
    );
    return { spread: Math.exp(point), loss: value };
  };
  const best = bestMean((target) => profile(target).loss);
  const { spread, loss } = profile(best);
  const n = values.length;
  const rise = (n / 2) * Math.log1p(studentT(n - 1).upperQuantile((1 - level) / 2) ** 2 / (n - 1));
  const limit = (side: 1 | -1) => risenBy(where, (target) => profile(target).loss - loss - rise, best, side);
  const outward = (target: number) => (kind === 'normal' ? middle + scale * target : Math.exp(middle + scale * target));
  return checkedResult(where, {
    kind,
    estimate: outward(best),
    interval: { level, lower: outward(limit(-1)), upper: outward(limit(1)) },
    location: middle + scale * (best - lift * spread ** 2),
    spread: scale * spread,
    logLikelihood:
      -loss - seen.measured.length * Math.log(scale) - (kind === 'normal' ? 0 : middle * seen.measured.length),
    n,
    below: split.limits.length,
  });
}

function logarithms(where: string, { measured, limits }: SplitCensored): SplitCensored {
  if ([...measured, ...limits].some((value) => !(value > 0)))
    throw new StatisticsError(where, 'out-of-range', 'needs values and limits above 0 for a lognormal shape');
  return { measured: measured.map(Math.log), limits: limits.map(Math.log) };
}

/** All that the likelihood needs of values that have been brought to mean 0. */
interface Standardised {
  readonly measured: number;
  readonly sumOfSquares: number;
  /** How many values lie below each limit. */
  readonly limits: readonly (readonly [limit: number, count: number])[];
}

function standardised({ measured, limits }: SplitCensored, middle: number, scale: number): Standardised {
  const own = (value: number) => (value - middle) / scale;
  const counts = new Map<number, number>();
  for (const limit of limits) counts.set(own(limit), (counts.get(own(limit)) ?? 0) + 1);
  const sumOfSquares = measured.reduce((sum, value) => sum + own(value) ** 2, 0);
  return { measured: measured.length, sumOfSquares, limits: [...counts] };
}

const halfLogTwoPi = 0.9189385332046727;

function minusLogLikelihood(
  { measured, sumOfSquares, limits }: Standardised,
  location: number,
  spread: number,
): number {
  let sum = measured * (halfLogTwoPi + Math.log(spread));
  sum += (sumOfSquares + measured * location * location) / (2 * spread * spread);
  for (const [limit, count] of limits) sum -= count * logLowerTail((limit - location) / spread);
  return sum;
}

/** Logarithm of the standard normal lower tail, also where the tail itself would vanish. */
function logLowerTail(z: number): number {
  if (z > -5) return Math.log(normalUpperTail(-z));
  return -halfLogTwoPi - (z * z) / 2 + Math.log(millsRatio(-z));
}

/** The most likely mean, in a bracket that is widened until it holds it. */
function bestMean(loss: (target: number) => number): number {
  let reach = 4;
  for (;;) {
    const { point } = leastBetween(loss, -reach, reach);
    if (Math.abs(point) < 0.99 * reach || reach > 1e3) return point;
    reach *= 4;
  }
}

/**
 * Where a function that is negative at a point crosses zero to one side: by doubling, then by false position, halving the value
 * at an end that stays (the Illinois rule), so that neither end can stand still.
 */
function risenBy(where: string, excess: (target: number) => number, from: number, side: 1 | -1): number {
  let [inner, atInner] = [0, excess(from)];
  let outer = 0.25;
  let atOuter = excess(from + side * outer);
  while (atOuter < 0) {
    [inner, atInner] = [outer, atOuter];
    outer *= 2;
    if (outer > 64)
      throw new StatisticsError(where, 'not-converged', 'needs more measured values: they do not limit the mean');
    atOuter = excess(from + side * outer);
  }
  for (let step = 0; step < 100 && outer - inner > 1e-10; step++) {
    const between = outer - (atOuter * (outer - inner)) / (atOuter - atInner);
    const there = excess(from + side * between);
    if (Math.abs(there) < 1e-12) return from + side * between;
    if (there < 0) [inner, atInner, atOuter] = [between, there, atOuter / 2];
    else [outer, atOuter, atInner] = [between, there, atInner / 2];
  }
  return from + side * outer;
}
