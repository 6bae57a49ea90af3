import { chiSquare } from '../../distributions/chi-square.js';
import { comparedFits } from './compared-fits.js';
import type { MixedModelFit } from './mixed-model-fit.js';

export interface LikelihoodRatioTest {
  /** Twice the gain in log-likelihood. */
  readonly statistic: number;
  /** Parameters that the larger model has more. */
  readonly degreesOfFreedom: number;
  readonly pValue: number;
}

/**
 * Likelihood-ratio test of a model against a larger one that contains it, by the chi-square distribution.
 *
 * That distribution holds for many units only: with few, p is too small for fixed effects. Where variances are tested,
 * zero lies at the edge of what is possible and p is too large (Self and Liang 1987). `parametricBootstrapTest` is
 * much nearer in both.
 *
 * @throws StatisticsError `out-of-range` unless both are fits to one response by one method, restricted likelihood only
 *   with the same fixed columns, and the second has more parameters and is no less likely
 * @example
 * const withArm = fitMixedModel({ response, fixed: designMatrix(terms), random, method: 'ml' });
 * const withoutArm = fitMixedModel({ response, fixed: { columns: designMatrix(terms).columns.slice(0, 1) }, random, method: 'ml' });
 * likelihoodRatioTest(withoutArm, withArm).pValue // 0.0004184
 */
export function likelihoodRatioTest(small: MixedModelFit, large: MixedModelFit): LikelihoodRatioTest {
  const { statistic, parameters } = comparedFits('likelihoodRatioTest', small, large);
  return { statistic, degreesOfFreedom: parameters, pValue: chiSquare(parameters).upperTail(statistic) };
}
