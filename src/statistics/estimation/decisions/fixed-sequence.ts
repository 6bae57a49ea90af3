import { checkLevel } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';

export interface SequenceStep {
  readonly pValue: number;
  /** The largest p-value so far: reject where it is at most alpha. */
  readonly adjusted: number;
  /** `not-tested` after the first that was not rejected, however small its p-value. */
  readonly outcome: 'rejected' | 'not-rejected' | 'not-tested';
}

/**
 * Tests hypotheses one after the other at the full alpha, in an order fixed before the data were seen, until one is not
 * rejected (Maurer, Hothorn and Lehmacher 1995; Westfall and Krishen 2001, J. Stat. Plan. Inference 99:25-40). The chance of
 * any false rejection is at most alpha. Worth nothing if the order was chosen afterwards.
 *
 * @param pValues in the order of testing
 * @param options `alpha`: 0.05 unless told
 * @throws StatisticsError `out-of-range`
 * @example fixedSequence([0.01, 0.2, 0.001]).map((step) => step.outcome) // ['rejected', 'not-rejected', 'not-tested']
 */
export function fixedSequence(
  pValues: readonly number[],
  options: { readonly alpha?: number } = {},
): readonly SequenceStep[] {
  const { alpha = 0.05 } = options;
  checkLevel('fixedSequence', alpha);
  let adjusted = 0;
  return pValues.map((pValue, at) => {
    if (!(pValue >= 0 && pValue <= 1)) {
      const got = `got ${pValue} at index ${at}`;
      throw new StatisticsError('fixedSequence', 'out-of-range', `needs p-values from 0 to 1, ${got}`);
    }
    const stopped = adjusted > alpha;
    adjusted = Math.max(adjusted, pValue);
    return { pValue, adjusted, outcome: stopped ? 'not-tested' : pValue <= alpha ? 'rejected' : 'not-rejected' };
  });
}
