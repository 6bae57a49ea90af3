import { checkFinite, checkLevel, checkPositive } from '../../checked-input.js';
import { noncentralT } from '../../distributions/noncentral-t.js';
import { normal } from '../../distributions/normal.js';
import { studentT } from '../../distributions/student-t.js';
import { checkDegreesOfFreedom } from './judged-estimate.js';

/** What the precision of an estimate is made of. */
export interface Precision {
  readonly standardError: number;
  /** Infinite where the standard error counts as known. */
  readonly degreesOfFreedom: number;
  /** Confidence level whose interval must exclude zero; 0.95 unless told. */
  readonly level?: number;
}

/** Beyond so many degrees of freedom t differs from normal by less than a part in 1e12. */
const almostKnown = 1e13;

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
  checkDegreesOfFreedom('powerOfT', degreesOfFreedom);
  checkLevel('powerOfT', level);
  const noncentrality = effect / standardError;
  checkFinite('powerOfT', 'effect in standard errors', noncentrality);
  const known = degreesOfFreedom > almostKnown;
  const critical = (known ? normal() : studentT(degreesOfFreedom)).upperQuantile((1 - level) / 2);
  const distribution = known ? normal(noncentrality) : noncentralT(degreesOfFreedom, noncentrality);
  return Math.min(1, distribution.upperTail(critical) + distribution.lowerTail(-critical));
}
