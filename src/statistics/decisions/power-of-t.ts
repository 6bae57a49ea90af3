import { checkFinite, checkLevel, checkPositive } from '../checked-input.js';
import { noncentralT } from '../distributions/noncentral-t.js';
import { studentT } from '../distributions/student-t.js';

/** What the precision of an estimate is made of. */
export interface Precision {
  readonly standardError: number;
  readonly degreesOfFreedom: number;
  /** Confidence level whose interval must exclude zero; 0.95 unless told. */
  readonly level?: number;
}

/**
 * The chance that the interval excludes zero, on either side, if the true effect were `effect`: the tails of the noncentral t.
 *
 * @throws StatisticsError `out-of-range`, `not-finite`
 * @example powerOfT(1, { standardError: 0.3, degreesOfFreedom: 22 }) // 0.890
 */
export function powerOfT(effect: number, precision: Precision): number {
  const { standardError, degreesOfFreedom, level = 0.95 } = precision;
  checkFinite('powerOfT', 'effect', effect);
  checkPositive('powerOfT', 'standard error', standardError);
  checkPositive('powerOfT', 'number of degrees of freedom', degreesOfFreedom);
  checkLevel('powerOfT', level);
  const critical = studentT(degreesOfFreedom).upperQuantile((1 - level) / 2);
  const distribution = noncentralT(degreesOfFreedom, effect / standardError);
  return Math.min(1, distribution.upperTail(critical) + distribution.lowerTail(-critical));
}
