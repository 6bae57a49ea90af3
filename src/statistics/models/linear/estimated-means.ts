import { type ContrastOptions, contrast } from './contrast.js';
import type { DesignTerm } from './design-term.js';
import type { LeastSquaresFit } from './least-squares.js';
import { meanWeights } from './mean-weights.js';
import type { TEstimate } from './t-estimate.js';

/** A model's mean at one level of a factor. Its t test is against a mean of zero. */
export interface EstimatedMean extends TEstimate {
  readonly level: string;
}

/**
 * The mean at each level of a factor, all else alike: covariates at their mean, the other factors' levels counted equally.
 *
 * @param terms those that the fit's design was made of
 * @example estimatedMeans(fit, terms, 'arm').map(({ level, estimate }) => `${level} ${estimate.toFixed(3)}`) // ['control 9.383', 'treated 7.417']
 * @throws StatisticsError as `meanWeights` and `contrast` do
 */
export function estimatedMeans(
  fit: LeastSquaresFit,
  terms: readonly DesignTerm[],
  factorName: string,
  options: ContrastOptions = {},
): EstimatedMean[] {
  return meanWeights(terms, factorName).map(({ level, weights }) => ({ level, ...contrast(fit, weights, options) }));
}
