import { checkFinite, checkLevel, checkPositive } from '../checked-input.js';
import type { Interval } from '../interval.js';
import { newtonInBracket } from '../numerics/root-finding/newton-in-bracket.js';
import { noncentralTails } from './noncentral-tails.js';
import { studentT } from './student-t.js';

/**
 * Exact confidence interval for the noncentrality of an observed t statistic.
 *
 * The lower limit is the noncentrality under which a t this large or larger has probability (1 - level)/2; the upper
 * limit the one under which a t this small or smaller has it. Divide by the square root of the effective sample size
 * to have an interval for a standardised difference (Steiger and Fouladi 1997).
 *
 * @throws StatisticsError 'out-of-range' unless 0 < level < 1 and df > 0
 * @example noncentralityInterval(2.5, 20, 0.95) // { level: 0.95, lower: 0.3673..., upper: 4.5787... }
 */
export function noncentralityInterval(t: number, degreesOfFreedom: number, level: number): Interval {
  checkFinite('noncentralityInterval', 't statistic', t);
  checkPositive('noncentralityInterval', 'number of degrees of freedom', degreesOfFreedom);
  checkLevel('noncentralityInterval', level);
  const tail = (1 - level) / 2;
  return {
    level,
    lower: noncentralityWithTail(t, degreesOfFreedom, tail),
    upper: 0 - noncentralityWithTail(-t, degreesOfFreedom, tail),
  };
}

/** The noncentrality under which the probability above t is the given tail. */
function noncentralityWithTail(t: number, degreesOfFreedom: number, tail: number): number {
  const tails = noncentralTails(degreesOfFreedom);
  const farthest = 40 + Math.abs(t) * Math.sqrt(1 + 1600 / degreesOfFreedom);
  return newtonInBracket(
    (noncentrality) => {
      const probability = tails.above(t, noncentrality);
      return { value: Math.log(probability / tail), slope: tails.sensitivity(t, noncentrality) / probability };
    },
    t - studentT(degreesOfFreedom).upperQuantile(tail),
    -farthest,
    farthest,
  );
}
