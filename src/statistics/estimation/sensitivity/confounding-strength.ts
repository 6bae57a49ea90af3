import { checkedResult, checkFinite, checkPositive } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';

export interface ConfoundingStrength {
  readonly kind: 'confounding-strength';
  /** Ratio by which a hidden factor would have to go with both treatment and outcome to explain the estimate away. */
  readonly forEstimate: number;
  /** The same for the limit nearest no effect: 1 where the interval holds no effect already. */
  readonly forLimit: number;
}

/**
 * How strong an unmeasured factor would have to be to explain a ratio of risks away: R + sqrt(R (R - 1)), R the ratio or its
 * reciprocal, whichever is above 1. The factor would have to be that many times as frequent among the treated, and that
 * many times raise the outcome; a weaker pair of ratios could not do it (the paper calls it the E-value).
 *
 * @param ratio with its limits, all above 0
 * @throws StatisticsError `out-of-range`
 * @example confoundingOfRatio({ estimate: 3.9, lower: 1.8, upper: 8.7 }).forEstimate // 7.26
 * @source VanderWeele and Ding 2017, Ann. Intern. Med. 167:268-274
 */
export function confoundingOfRatio(ratio: {
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
}): ConfoundingStrength {
  const { estimate, lower, upper } = ratio;
  for (const [name, value] of Object.entries({ lower, estimate, upper }))
    checkPositive('confoundingOfRatio', name, value);
  if (!(lower <= estimate && estimate <= upper)) {
    const what = `needs an estimate between its limits, got ${lower}, ${estimate}, ${upper}`;
    throw new StatisticsError('confoundingOfRatio', 'out-of-range', what);
  }
  const isAbove = estimate >= 1;
  const limit = isAbove ? Math.max(1, lower) : Math.max(1, 1 / upper);
  return strengths('confoundingOfRatio', isAbove ? estimate : 1 / estimate, limit);
}

/**
 * The same for a standardised mean difference d with its standard error: it is turned into an approximate ratio exp(0.91 d),
 * with limits exp(0.91 d -+ 1.78 standardError), of being on either side of any cutting value.
 *
 * The conversion takes the outcome as roughly normal with the same spread in both groups, and always speaks of the 95 % limit.
 *
 * @throws StatisticsError `not-finite`, `out-of-range`
 * @example confoundingOfDifference({ difference: 0.5, standardError: 0.1 }).forEstimate // 2.53
 * @source VanderWeele and Ding 2017, Ann. Intern. Med. 167:268-274; the factor 0.91 after Chinn 2000, Stat. Med. 19:3127-3131
 */
export function confoundingOfDifference(standardised: {
  readonly difference: number;
  readonly standardError: number;
}): ConfoundingStrength {
  const { difference, standardError } = standardised;
  checkFinite('confoundingOfDifference', 'difference', difference);
  checkPositive('confoundingOfDifference', 'standardError', standardError);
  const size = 0.91 * Math.abs(difference);
  if (size > 300) {
    const what = `needs a difference of fewer than 300 standard deviations, got ${difference}`;
    throw new StatisticsError('confoundingOfDifference', 'out-of-range', what);
  }
  return strengths('confoundingOfDifference', Math.exp(size), Math.exp(Math.max(0, size - 1.78 * standardError)));
}

function strengths(where: string, estimate: number, limit: number): ConfoundingStrength {
  const strength = (ratio: number) => ratio + Math.sqrt(ratio) * Math.sqrt(ratio - 1);
  return checkedResult(where, {
    kind: 'confounding-strength',
    forEstimate: strength(estimate),
    forLimit: strength(limit),
  });
}
