import type { Interval } from '../statistics/index.js';

export type VerdictCode =
  | 'worthwhile'
  | 'some-effect'
  | 'smaller-than-worthwhile'
  | 'no-worthwhile-effect'
  | 'harmful'
  | 'undecided'
  | 'not-answerable';

/**
 * The verdict from the primary interval against zero and the margin, on the better side. A limit that just touches zero
 * or the margin has not passed it.
 *
 * Without a margin it is still answered whether there is an effect: `some-effect`, `harmful` or `undecided`; whether it is worth
 * paying for is not.
 *
 * @param interval of the treated walls' change less the untreated walls', in the outcome's unit
 * @param margin the smallest worthwhile difference, positive; undefined where the plan states none
 * @example verdictCode({ level: 0.95, lower: -3.4, upper: -2.1 }, 2, 'lower') // 'worthwhile'
 */
export function verdictCode(
  interval: Interval,
  margin: number | undefined,
  better: 'lower' | 'higher',
): Exclude<VerdictCode, 'not-answerable'> {
  const [worst, best] = better === 'lower' ? [-interval.upper, -interval.lower] : [interval.lower, interval.upper];
  if (best < 0) return 'harmful';
  if (margin === undefined) return worst > 0 ? 'some-effect' : 'undecided';
  if (worst > margin) return 'worthwhile';
  if (worst > 0) return best < margin ? 'smaller-than-worthwhile' : 'some-effect';
  return best < margin ? 'no-worthwhile-effect' : 'undecided';
}
