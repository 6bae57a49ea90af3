import { checkPositive } from '../../checked-input.js';
import { type Better, type JudgedEstimate, tailsAgainst } from './judged-estimate.js';

export interface MinimumEffect {
  readonly kind: 'minimum-effect';
  readonly margin: number;
  readonly better: Better | 'either';
  /** Small where the effect goes beyond the margin, not merely beyond zero. */
  readonly pValue: number;
}

/**
 * Is the effect larger than the margin? The null hypothesis is not "no effect" but "an effect of at most the margin"
 * (Murphy and Myors 1999, J. Appl. Psychol. 84:234-248).
 *
 * In one direction p is the tail beyond the estimate if the effect were just the margin. With `either` it is the largest
 * chance, over all effects within the margins, of an estimate as far from zero: both tails if the effect were at the margin.
 *
 * @param options `margin`: the smallest effect that matters, above 0; `better`: the direction asked about
 * @throws StatisticsError `out-of-range`, `not-finite`
 * @example minimumEffect({ estimate: -3, standardError: 0.4, degreesOfFreedom: 11 }, { margin: 2, better: 'lower' }).pValue // 0.0148
 */
export function minimumEffect(
  judged: JudgedEstimate,
  options: { readonly margin: number; readonly better: Better | 'either' },
): MinimumEffect {
  const { margin, better } = options;
  checkPositive('minimumEffect', 'margin', margin);
  return { kind: 'minimum-effect', margin, better, pValue: Math.min(1, pValueOf(judged, margin, better)) };
}

function pValueOf(judged: JudgedEstimate, margin: number, better: Better | 'either'): number {
  switch (better) {
    case 'lower':
      return tailsAgainst('minimumEffect', judged, -margin).lower;
    case 'higher':
      return tailsAgainst('minimumEffect', judged, margin).upper;
    case 'either': {
      const size = { ...judged, estimate: Math.abs(judged.estimate) };
      return tailsAgainst('minimumEffect', size, margin).upper + tailsAgainst('minimumEffect', size, -margin).upper;
    }
  }
}
