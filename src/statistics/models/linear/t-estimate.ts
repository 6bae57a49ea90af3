import { checkLevel } from '../../checked-input.js';
import { studentT } from '../../distributions/student-t.js';
import type { Interval } from '../../interval.js';
import { StatisticsError } from '../../statistics-error.js';

/** An estimate whose error follows Student's t. */
export interface TEstimate {
  readonly estimate: number;
  readonly standardError: number;
  readonly degreesOfFreedom: number;
  /** Estimate over standard error. */
  readonly statistic: number;
  /** Two-sided, against zero. */
  readonly pValue: number;
  readonly interval: Interval;
}

/** The t test against zero and the interval that go with an estimate, its standard error and degrees of freedom. */
export function tEstimate(
  where: string,
  found: Pick<TEstimate, 'estimate' | 'standardError' | 'degreesOfFreedom'>,
  level: number,
): TEstimate {
  const { estimate, standardError, degreesOfFreedom } = found;
  checkLevel(where, level);
  if (!(standardError > 0)) {
    throw new StatisticsError(where, 'no-variation', `needs a standard error above zero, got ${standardError}`);
  }
  const distribution = studentT(degreesOfFreedom);
  const statistic = estimate / standardError;
  const reach = distribution.upperQuantile((1 - level) / 2) * standardError;
  return {
    estimate,
    standardError,
    degreesOfFreedom,
    statistic,
    pValue: Math.min(1, 2 * distribution.upperTail(Math.abs(statistic))),
    interval: { level, lower: estimate - reach, upper: estimate + reach },
  };
}
