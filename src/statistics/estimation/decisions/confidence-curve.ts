import { checkedResult } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';
import { type JudgedEstimate, tailsAgainst } from './judged-estimate.js';

export interface ConfidencePoint {
  /** A supposed true effect. */
  readonly value: number;
  /** Two-sided p-value against it: 1 at the estimate. */
  readonly pValue: number;
  /** The level of the interval that ends here: 1 less the p-value. */
  readonly level: number;
}

/**
 * The p-value against every supposed effect, or all intervals at once: the interval of any level is where the curve is
 * above one less that level (Birnbaum 1961, J. Am. Stat. Assoc. 56:246-249). It shows what a single interval hides, that
 * the ends are much less compatible with the data than the middle.
 *
 * @param options `points`: how many, evenly spaced and odd, so that the estimate is one of them, 201 unless told;
 *   `reach`: how many standard errors to either side, 4 unless told
 * @throws StatisticsError `out-of-range`, `not-finite`
 * @example confidenceCurve({ estimate: 1, standardError: 0.5, degreesOfFreedom: 9 }, { points: 5 })[2] // { value: 1, pValue: 1, level: 0 }
 */
export function confidenceCurve(
  judged: JudgedEstimate,
  options: { readonly points?: number; readonly reach?: number } = {},
): readonly ConfidencePoint[] {
  const { points = 201, reach = 4 } = options;
  if (!Number.isSafeInteger(points) || points < 3 || points % 2 === 0 || !(reach > 0)) {
    const got = `got ${points} points and a reach of ${reach}`;
    throw new StatisticsError(
      'confidenceCurve',
      'out-of-range',
      `needs an odd number of points and a positive reach, ${got}`,
    );
  }
  const middle = (points - 1) / 2;
  return Array.from({ length: points }, (_, at) => {
    const value = judged.estimate + ((at - middle) / middle) * reach * judged.standardError;
    const { lower, upper } = tailsAgainst('confidenceCurve', judged, value);
    const pValue = Math.min(1, 2 * Math.min(lower, upper));
    return checkedResult('confidenceCurve', { value, pValue, level: 1 - pValue });
  });
}
