import { checkFinite, checkPositive } from '../../checked-input.js';
import { normal } from '../../distributions/normal.js';
import { studentT } from '../../distributions/student-t.js';
import { StatisticsError } from '../../statistics-error.js';

/** What every decision needs to know of an estimate; any comparison, contrast or coefficient has it. */
export interface JudgedEstimate {
  readonly estimate: number;
  readonly standardError: number;
  /** Infinite where the standard error counts as known. */
  readonly degreesOfFreedom: number;
}

/** Which direction of the effect is the good one. */
export type Better = 'lower' | 'higher';

/** Probability of an estimate at most this low, and at least this high, if the true effect were `value`. */
export interface TailsAgainst {
  readonly lower: number;
  readonly upper: number;
}

export function tailsAgainst(where: string, judged: JudgedEstimate, value: number): TailsAgainst {
  checkFinite(where, 'value', value);
  const distribution = errorDistribution(where, judged);
  const statistic = (judged.estimate - value) / judged.standardError;
  return { lower: distribution.lowerTail(statistic), upper: distribution.upperTail(statistic) };
}

/**
 * Student's t, or the normal distribution where the degrees of freedom are infinite.
 *
 * @throws StatisticsError `out-of-range` below half a degree of freedom, where an estimate says nothing of its own error
 */
export function errorDistribution(where: string, { estimate, standardError, degreesOfFreedom }: JudgedEstimate) {
  checkFinite(where, 'estimate', estimate);
  checkPositive(where, 'standard error', standardError);
  checkDegreesOfFreedom(where, degreesOfFreedom);
  return degreesOfFreedom === Number.POSITIVE_INFINITY ? normal() : studentT(degreesOfFreedom);
}

export function checkDegreesOfFreedom(where: string, degreesOfFreedom: number): void {
  if (!(degreesOfFreedom >= 0.5)) {
    const what = `needs at least half a degree of freedom, got ${degreesOfFreedom}`;
    throw new StatisticsError(where, 'out-of-range', `${what}; add units`);
  }
}
