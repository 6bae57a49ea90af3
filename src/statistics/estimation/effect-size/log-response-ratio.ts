import { checkedResult, checkLevel, checkSample } from '../../checked-input.js';
import { normal } from '../../distributions/normal.js';
import type { Interval } from '../../interval.js';
import { StatisticsError } from '../../statistics-error.js';
import type { LevelOption } from '../comparison/mean-comparison.js';
import { type Moments, momentsOf } from '../summaries/moments.js';

export interface LogResponseRatio {
  readonly kind: 'log-response-ratio';
  /** Natural logarithm of the ratio of means, treated over untreated. */
  readonly estimate: number;
  readonly standardError: number;
  /** Of the logarithm; its exponential is an interval for the ratio. */
  readonly interval: Interval;
  readonly n: { readonly treated: number; readonly untreated: number };
}

/**
 * Log response ratio: ln of the treated mean over the untreated mean, for responses that are positive and have a true zero.
 *
 * Variance by the delta method, s^2 / (n m^2) summed over the groups, with normal quantiles and no bias correction, as
 * Hedges, Gurevitch and Curtis define it (1999, Ecology 80:1150-1156, equations 1 to 3). Because the quantiles are normal
 * the interval is too narrow with few units; `ratioOfMeans` then gives one that is not.
 *
 * @throws StatisticsError `out-of-range` unless both means are positive, `too-few` below two values in a group, `no-variation`
 * @example logResponseRatio([8, 9, 10], [11, 12, 13, 12]).estimate // -0.2877, ln(9 / 12)
 */
export function logResponseRatio(
  treated: readonly number[],
  untreated: readonly number[],
  options: LevelOption = {},
): LogResponseRatio {
  const level = options.level ?? 0.95;
  checkLevel('logResponseRatio', level);
  checkSample('logResponseRatio', 'treated', treated, 2);
  checkSample('logResponseRatio', 'untreated', untreated, 2);
  const [above, below] = [momentsOf(treated), momentsOf(untreated)];
  checkMean('treated', above);
  checkMean('untreated', below);
  const estimate = Math.log(above.mean / below.mean);
  const standardError = Math.sqrt(relativeVariance(above) + relativeVariance(below));
  if (standardError === 0) {
    throw new StatisticsError('logResponseRatio', 'no-variation', 'needs values that vary in a group; check the data');
  }
  const reach = normal().upperQuantile((1 - level) / 2) * standardError;
  return checkedResult('logResponseRatio', {
    kind: 'log-response-ratio',
    estimate,
    standardError,
    interval: { level, lower: estimate - reach, upper: estimate + reach },
    n: { treated: above.n, untreated: below.n },
  });
}

function checkMean(group: string, { mean }: Moments): void {
  if (!(mean > 0)) {
    const what = `needs positive means, got ${mean} for ${group}`;
    throw new StatisticsError('logResponseRatio', 'out-of-range', `${what}; a change has no ratio, give levels`);
  }
}

/** Squared standard error of the mean, relative to the mean. */
function relativeVariance({ n, mean, variance }: Moments): number {
  return variance / n / mean / mean;
}
