import { type ContrastOptions, contrast } from './contrast.js';
import type { DesignTerm } from './design-term.js';
import type { LeastSquaresFit } from './least-squares.js';
import { differenceOfWeights, meanWeights } from './mean-weights.js';
import type { TEstimate } from './t-estimate.js';

/** One level's mean less another's. */
export interface MeanDifference extends TEstimate {
  readonly first: string;
  readonly second: string;
}

/**
 * Every difference of two estimated means, an earlier level less a later one. Intervals and p-values are each its own: with
 * several differences adjust them for their number.
 *
 * @param terms those that the fit's design was made of
 * @throws StatisticsError as `meanWeights` and `contrast` do
 * @example meanDifferences(fit, terms, 'arm')[0].estimate // 1.967
 */
export function meanDifferences(
  fit: LeastSquaresFit,
  terms: readonly DesignTerm[],
  factorName: string,
  options: ContrastOptions = {},
): MeanDifference[] {
  const means = meanWeights(terms, factorName);
  return means.flatMap((first, index) =>
    means.slice(index + 1).map((second) => ({
      first: first.level,
      second: second.level,
      ...contrast(fit, differenceOfWeights(first.weights, second.weights), options),
    })),
  );
}
