import { checkResiduals } from './check-residuals.js';
import { type ContrastWeights, weightedEstimate, weightVector } from './contrast-weights.js';
import type { LeastSquaresFit } from './least-squares.js';
import { type TEstimate, tEstimate } from './t-estimate.js';

export interface ContrastOptions {
  /** Confidence level; defaults to 0.95. */
  readonly level?: number;
}

/**
 * A weighted sum of coefficients with its standard error, t test against zero and interval.
 *
 * @param weights by column name; columns not named weigh nothing
 * @throws StatisticsError `out-of-range` for a name that is no column, a weight that is not finite, weights all zero, or a
 *   level outside 0 to 1; `no-variation` where the model fits without any residual, so that there is nothing to judge by
 * @example contrast(fit, { 'arm: treated': 1 }, { level: 0.9 }).interval // { level: 0.9, lower: -2.541, upper: -1.392 }
 */
export function contrast(fit: LeastSquaresFit, weights: ContrastWeights, options: ContrastOptions = {}): TEstimate {
  const vector = weightVector('contrast', fit.design, weights);
  checkResiduals('contrast', fit);
  const estimate = weightedEstimate(fit.coefficients, vector);
  const variance = fit.residualVariance * quadraticForm(fit.inverseFactor, vector);
  return tEstimate(
    'contrast',
    { estimate, standardError: Math.sqrt(variance), degreesOfFreedom: fit.degreesOfFreedom },
    options.level ?? 0.95,
  );
}

/** Squared length of the weights turned by the inverse factor: never negative, unlike the covariance's own form. */
function quadraticForm(inverseFactor: Float64Array, vector: Float64Array): number {
  const size = vector.length;
  let total = 0;
  for (let column = 0; column < size; column++) {
    let sum = 0;
    for (let row = 0; row <= column; row++) sum += vector[row]! * inverseFactor[row * size + column]!;
    total += sum * sum;
  }
  return total;
}
