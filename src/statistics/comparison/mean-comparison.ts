import { studentT } from '../distributions/student-t.js';
import type { Interval } from '../interval.js';
import { StatisticsError } from '../statistics-error.js';

/** How many units stand in each group. */
export interface GroupSizes {
  readonly x: number;
  readonly y: number;
}

/** A difference of means, x less y, judged by Student's t. The kind names what is assumed. */
export interface MeanComparison<Kind extends string> {
  readonly kind: Kind;
  readonly estimate: number;
  readonly standardError: number;
  readonly degreesOfFreedom: number;
  /** The estimate in standard errors. */
  readonly statistic: number;
  /** Two-sided, against no difference. */
  readonly pValue: number;
  readonly interval: Interval;
  readonly n: GroupSizes;
}

export interface LevelOption {
  /** Confidence level as a fraction; 0.95 unless told. */
  readonly level?: number;
}

interface Parts<Kind extends string> {
  readonly kind: Kind;
  readonly estimate: number;
  readonly standardError: number;
  readonly degreesOfFreedom: number;
  readonly level: number;
  readonly n: GroupSizes;
}

/** Completes an estimate and its standard error with t, p and interval. */
export function judgedByT<Kind extends string>(parts: Parts<Kind>): MeanComparison<Kind> {
  const { kind, estimate, standardError, degreesOfFreedom, level, n } = parts;
  if (!(standardError > 0)) {
    throw new StatisticsError(
      kind,
      'no-variation',
      'needs values that vary: the standard error is zero; check the data',
    );
  }
  const distribution = studentT(degreesOfFreedom);
  const statistic = estimate / standardError;
  const reach = distribution.upperQuantile((1 - level) / 2) * standardError;
  return {
    kind,
    estimate,
    standardError,
    degreesOfFreedom,
    statistic,
    pValue: Math.min(1, 2 * distribution.upperTail(Math.abs(statistic))),
    interval: { level, lower: estimate - reach, upper: estimate + reach },
    n,
  };
}
