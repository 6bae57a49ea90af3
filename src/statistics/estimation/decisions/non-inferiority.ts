import { checkedResult, checkLevel, checkPositive } from '../../checked-input.js';
import { type Better, errorDistribution, type JudgedEstimate, tailsAgainst } from './judged-estimate.js';

export interface NonInferiority {
  readonly kind: 'non-inferiority';
  readonly margin: number;
  readonly better: Better;
  /** One-sided, against an effect that is worse by the margin or more. */
  readonly pValue: number;
  /** The worst effect that is not rejected, at (1 - level) / 2 one-sided. */
  readonly worst: number;
}

/**
 * Is the effect worse by less than the margin? One-sided, as in trials that compare with an accepted treatment
 * (Piaggio et al. 2012, JAMA 308:2594-2604).
 *
 * @param options `margin`: above 0; `better`: the good direction; `level`: of the two-sided interval whose worse end is
 *   `worst`, 0.95 unless told
 * @throws StatisticsError `out-of-range`, `not-finite`
 * @example nonInferiority({ estimate: 0.2, standardError: 0.5, degreesOfFreedom: 30 }, { margin: 2, better: 'lower' }).pValue // 0.0006
 */
export function nonInferiority(
  judged: JudgedEstimate,
  options: { readonly margin: number; readonly better: Better; readonly level?: number },
): NonInferiority {
  const { margin, better, level = 0.95 } = options;
  checkPositive('nonInferiority', 'margin', margin);
  checkLevel('nonInferiority', level);
  const reach = errorDistribution('nonInferiority', judged).upperQuantile((1 - level) / 2) * judged.standardError;
  const lowerIsBetter = better === 'lower';
  return checkedResult('nonInferiority', {
    kind: 'non-inferiority',
    margin,
    better,
    pValue: lowerIsBetter
      ? tailsAgainst('nonInferiority', judged, margin).lower
      : tailsAgainst('nonInferiority', judged, -margin).upper,
    worst: lowerIsBetter ? judged.estimate + reach : judged.estimate - reach,
  });
}
