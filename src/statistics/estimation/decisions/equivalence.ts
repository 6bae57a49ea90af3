import { checkedResult, checkLevel, checkPositive } from '../../checked-input.js';
import type { Interval } from '../../interval.js';
import { errorDistribution, type JudgedEstimate, tailsAgainst } from './judged-estimate.js';

export interface Equivalence {
  readonly kind: 'equivalence';
  readonly margin: number;
  /** The larger of the two one-sided p-values: against an effect of -margin or below, and of margin or above. */
  readonly pValue: number;
  readonly againstLower: number;
  readonly againstUpper: number;
  /** Inside (-margin, margin) exactly when p is below (1 - level) / 2. */
  readonly interval: Interval;
}

/**
 * Is the effect smaller than the margin, either way? Two one-sided tests (Schuirmann 1987, J. Pharmacokinet. Biopharm.
 * 15:657-680). A large p is not proof of an effect, as the large p of an ordinary test is no proof of none.
 *
 * @param options `margin`: the smallest effect that matters, above 0; `level`: of the interval, 0.9 unless told, so that
 *   it goes with a test at 5 %
 * @throws StatisticsError `out-of-range`, `not-finite`
 * @example equivalence({ estimate: 0.1, standardError: 0.3, degreesOfFreedom: 20 }, { margin: 1 }).pValue // 0.0035
 */
export function equivalence(
  judged: JudgedEstimate,
  options: { readonly margin: number; readonly level?: number },
): Equivalence {
  const { margin, level = 0.9 } = options;
  checkPositive('equivalence', 'margin', margin);
  checkLevel('equivalence', level);
  const againstLower = tailsAgainst('equivalence', judged, -margin).upper;
  const againstUpper = tailsAgainst('equivalence', judged, margin).lower;
  const reach = errorDistribution('equivalence', judged).upperQuantile((1 - level) / 2) * judged.standardError;
  return checkedResult('equivalence', {
    kind: 'equivalence',
    margin,
    pValue: Math.max(againstLower, againstUpper),
    againstLower,
    againstUpper,
    interval: { level, lower: judged.estimate - reach, upper: judged.estimate + reach },
  });
}
