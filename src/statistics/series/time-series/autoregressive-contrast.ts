import { checkedResult } from '../../checked-input.js';
import { type ContrastWeights, weightedEstimate, weightVector } from '../../models/linear/contrast-weights.js';
import { type TEstimate, tEstimate } from '../../models/linear/t-estimate.js';
import type { AutoregressiveFit } from './autoregressive-least-squares.js';
import { smallSampleParts } from './small-sample-parts.js';

export interface AutoregressiveContrastOptions {
  /** Defaults to 0.95. */
  readonly level?: number;
}

/**
 * A weighted sum of coefficients with standard error and degrees of freedom by Kenward and Roger: the standard error grows by
 * what the estimated autocorrelation leaves unsaid, and the degrees of freedom fall with how well the variance is known.
 *
 * @param weights by column name; columns not named weigh nothing
 * @throws StatisticsError `out-of-range` for weights or level, or where the correction cannot be computed
 * @example autoregressiveContrast(autoregressiveLeastSquares(series), { step: 1 }).degreesOfFreedom // 3.223
 * @source Kenward and Roger 1997, Biometrics 53:983–997
 */
export function autoregressiveContrast(
  fit: AutoregressiveFit,
  weights: ContrastWeights,
  options: AutoregressiveContrastOptions = {},
): TEstimate {
  const where = 'autoregressiveContrast';
  const vector = weightVector(where, fit.series.design, weights);
  const estimate = weightedEstimate(fit.fit.coefficients, vector);
  const { variance, degreesOfFreedom } = checkedResult(where, smallSampleParts(fit, vector));
  return tEstimate(where, { estimate, standardError: Math.sqrt(variance), degreesOfFreedom }, options.level ?? 0.95);
}
