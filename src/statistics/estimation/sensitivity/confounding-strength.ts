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
 * How strong an unmeasured factor would have to be to explain a standardised mean difference d away: it is turned into an
 * approximate ratio exp(0.91 d), with limits exp(0.91 d -+ 1.78 standardError), of being on either side of any cutting value. With R
 * that ratio, the factor would have to be R + sqrt(R (R - 1)) times as frequent among the treated, and that many times raise
 * the outcome; a weaker pair of ratios could not do it (the paper calls it the E-value).
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
