import { symmetricEigen } from '../../numerics/matrix/symmetric-eigen.js';
import type { ContrastOptions } from '../linear/contrast.js';
import type { ContrastWeights } from '../linear/contrast-weights.js';
import { type TEstimate, tEstimate } from '../linear/t-estimate.js';
import { contrastEstimate, contrastRow, contrastRows, dot, quadraticForm } from './contrast-in-fit.js';
import { type JointTest, jointTest } from './contrast-test.js';
import type { MixedModelFit } from './mixed-model-fit.js';
import { type VarianceInformation, varianceInformation } from './variance-information.js';

/**
 * A weighted sum of fixed effects with Satterthwaite's degrees of freedom: twice the squared variance of the sum over
 * the variance of that variance, the latter by the delta method from the second derivatives of the deviance (Giesbrecht
 * and Burns 1985, Biometrics 41, 477–486; Fai and Cornelius 1996).
 *
 * Serves any residual structure. With fewer than some twenty units prefer `kenwardRoger`, which also widens the
 * standard error.
 *
 * @param weights by column name; columns not named weigh nothing
 * @throws StatisticsError `out-of-range` for a name that is no column or a level outside 0 to 1
 * @example satterthwaite(mixedFit, { 'arm: treated': 1 }).degreesOfFreedom // 4.0
 */
export function satterthwaite(fit: MixedModelFit, weights: ContrastWeights, options: ContrastOptions = {}): TEstimate {
  const row = contrastRow('satterthwaite', fit, weights);
  const information = varianceInformation(fit);
  const { variance, degreesOfFreedom } = approximate(fit, information, row);
  const estimate = contrastEstimate(fit, row);
  return tEstimate(
    'satterthwaite',
    { estimate, standardError: Math.sqrt(variance), degreesOfFreedom },
    options.level ?? 0.95,
  );
}

/**
 * Several contrasts tested together: an F test whose denominator degrees of freedom combine those of uncorrelated
 * contrasts that span the same space (Fai and Cornelius 1996, Journal of Statistical Computation and Simulation 54,
 * 363–378).
 *
 * @throws StatisticsError as `satterthwaite`; `collinear` when one contrast follows from the others
 * @example satterthwaiteJoint(mixedFit, [{ intercept: 1 }, { 'arm: treated': 1 }]).denominatorDegreesOfFreedom // 4.0
 */
export function satterthwaiteJoint(fit: MixedModelFit, contrasts: readonly ContrastWeights[]): JointTest {
  const rows = contrastRows('satterthwaiteJoint', fit, contrasts);
  const information = varianceInformation(fit);
  const parts = uncorrelated(fit, rows).map((row) => {
    const { variance, degreesOfFreedom } = approximate(fit, information, row);
    return { square: contrastEstimate(fit, row) ** 2 / variance, degreesOfFreedom };
  });
  const wald = parts.reduce((sum, { square }) => sum + square, 0);
  const freedom = combined(parts.map(({ degreesOfFreedom }) => degreesOfFreedom));
  return jointTest('satterthwaiteJoint', { wald, contrasts: rows.length, degreesOfFreedom: freedom, scale: 1 });
}

function approximate(fit: MixedModelFit, { covariance, slopes }: VarianceInformation, row: Float64Array) {
  const variance = quadraticForm(fit.covariance, row, row);
  const gradient = Float64Array.from(slopes, (slope) => quadraticForm(slope, row, row));
  return { variance, degreesOfFreedom: (2 * variance * variance) / quadraticForm(covariance, gradient, gradient) };
}

/** Combinations of the contrasts whose estimates are uncorrelated. */
function uncorrelated(fit: MixedModelFit, rows: readonly Float64Array[]): Float64Array[] {
  const count = rows.length;
  const covariance = Float64Array.from({ length: count * count }, (_, at) =>
    quadraticForm(fit.covariance, rows[Math.floor(at / count)]!, rows[at % count]!),
  );
  const { vectors } = symmetricEigen(covariance, count);
  return rows.map((first, k) =>
    first.map((_, at) =>
      dot(
        Float64Array.from(rows, (row) => row[at]!),
        column(vectors, count, k),
      ),
    ),
  );
}

function column(matrix: Float64Array, size: number, at: number): Float64Array {
  return Float64Array.from({ length: size }, (_, row) => matrix[row * size + at]!);
}

/** The F distribution has the mean of the sum of squared t's over their number. */
function combined(freedoms: readonly number[]): number {
  const [first = 0, ...others] = freedoms;
  // Alike but for the numerical derivatives behind them, as in balanced data.
  if (others.every((freedom) => Math.abs(freedom - first) < 1e-8)) return first;
  if (freedoms.some((freedom) => freedom <= 2)) return 2;
  const mean = freedoms.reduce((sum, freedom) => sum + freedom / (freedom - 2), 0);
  return (2 * mean) / (mean - freedoms.length);
}
