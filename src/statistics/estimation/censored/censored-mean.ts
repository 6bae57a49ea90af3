import { checkedResult, checkLevel } from '../../checked-input.js';
import { studentT } from '../../distributions/student-t.js';
import type { Interval } from '../../interval.js';
import { newtonInBracket } from '../../numerics/root-finding/newton-in-bracket.js';
import { StatisticsError } from '../../statistics-error.js';
import { mean } from '../summaries/mean.js';
import { standardDeviation } from '../summaries/standard-deviation.js';
import { highestLikelihood } from './highest-likelihood.js';
import { type LeftCensored, type SplitCensored, splitCensored } from './left-censored.js';
import { halfLogTwoPi } from './normal-below.js';
import { type ProfiledMean, profiledMean } from './profiled-mean.js';

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

/** In spreads; a mean so far away is no answer. */
const FARTHEST = 1e12;

/**
 * Mean of values of which some are only known to lie below a limit, by maximum likelihood: a measured value counts with its
 * density, one below its limit with the chance of lying there. No value is made up.
 *
 * The lognormal mean is exp(location + spread²/2). The shape is an assumption that values below a limit cannot contradict:
 * look at how the answer moves (`censoredMeans`).
 *
 * The interval holds every mean whose profile lies less than (n/2)·log(1 + t²/(n − 1)) below the highest, t Student's quantile
 * with n − 1 degrees of freedom: with a normal shape and nothing below a limit that is Student's interval itself, and for large
 * n it is the chi-square limit. Its coverage is in `tests/simulation/calibration.md`.
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
  const t = studentT(values.length - 1).upperQuantile((1 - level) / 2);
  if (kind === 'normal' && split.limits.length === 0) return withoutLimits(split.measured, t, level);
  const seen = kind === 'normal' ? split : logarithms(where, split);
  const scale = standardDeviation(seen.measured);
  const middle = mean(seen.measured);
  // In units of the measured spread about their mean, so that the search is the same in every unit.
  const own = (value: number) => (value - middle) / scale;
  const data = { measured: seen.measured.map(own), limits: seen.limits.map(own) };
  // The mean of lognormal values grows with half the variance of the logarithms.
  const lift = kind === 'normal' ? 0 : scale / 2;
  const peak = highestLikelihood(where, [data]);
  const spread = 1 / peak.precision;
  const location = peak.levels[0]! * spread;
  const best = location + lift * spread ** 2;
  const profile = profiledMean(data, lift, { held: best, logPrecision: Math.log(peak.precision) });
  const { loss } = profile(best);
  const n = values.length;
  const rise = (n / 2) * Math.log1p(t ** 2 / (n - 1));
  const limit = (side: 1 | -1) =>
    best + side * risenBy({ where, profile: (reach) => profile(best + side * reach), least: loss, rise, spread });
  const outward = (target: number) => (kind === 'normal' ? middle + scale * target : Math.exp(middle + scale * target));
  const [lower, upper] = [outward(limit(-1)), outward(limit(1))];
  if (upper === Number.POSITIVE_INFINITY) throw unlimited(where);
  return checkedResult(where, {
    kind,
    estimate: outward(best),
    interval: { level, lower, upper },
    location: middle + scale * location,
    spread: scale * spread,
    logLikelihood:
      -loss - seen.measured.length * Math.log(scale) - (kind === 'normal' ? 0 : middle * seen.measured.length),
    n,
    below: split.limits.length,
  });
}

/** The profile of a normal mean without limits is Student's interval in closed form. */
function withoutLimits(values: readonly number[], t: number, level: number): CensoredMean {
  const n = values.length;
  const estimate = mean(values);
  const deviation = standardDeviation(values);
  const reach = (t * deviation) / Math.sqrt(n);
  const spread = deviation * Math.sqrt((n - 1) / n);
  return checkedResult('censoredMean', {
    kind: 'normal',
    estimate,
    interval: { level, lower: estimate - reach, upper: estimate + reach },
    location: estimate,
    spread,
    logLikelihood: -n * (halfLogTwoPi + Math.log(spread) + 0.5),
    n,
    below: 0,
  });
}

function logarithms(where: string, { measured, limits }: SplitCensored): SplitCensored {
  if ([...measured, ...limits].some((value) => !(value > 0)))
    throw new StatisticsError(where, 'out-of-range', 'needs values and limits above 0 for a lognormal shape');
  return { measured: measured.map(Math.log), limits: limits.map(Math.log) };
}

interface Rise {
  readonly where: string;
  readonly profile: (reach: number) => ProfiledMean;
  /** Loss at the most likely mean. */
  readonly least: number;
  readonly rise: number;
  /** Unit of the steps outward. */
  readonly spread: number;
}

/**
 * How far from the most likely mean the least loss has risen by so much: by doubling, then by Newton's method on the square root of
 * the rise, which is nearly straight. The loss grows without end to both sides, if only as a logarithm.
 */
function risenBy({ where, profile, least, rise, spread }: Rise): number {
  const excess = (steps: number) => {
    const { loss, slope } = profile(spread * steps);
    const root = Math.sqrt(Math.max(0, loss - least));
    return { value: root - Math.sqrt(rise), slope: root > 0 ? (spread * Math.abs(slope)) / (2 * root) : 0 };
  };
  let [inner, outer] = [0, 0.25];
  while (!(excess(outer).value >= 0)) {
    [inner, outer] = [outer, 2 * outer];
    if (outer > FARTHEST) throw unlimited(where);
  }
  return spread * newtonInBracket(excess, outer, inner, outer);
}

function unlimited(where: string): StatisticsError {
  return new StatisticsError(where, 'not-converged', 'needs more measured values: they do not limit the mean');
}
