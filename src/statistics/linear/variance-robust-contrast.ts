import { StatisticsError } from '../statistics-error.js';
import { checkResiduals } from './check-residuals.js';
import type { ContrastOptions } from './contrast.js';
import { type ContrastWeights, weightVector } from './contrast-weights.js';
import { dot } from './dot.js';
import type { LeastSquaresFit } from './least-squares.js';
import { orthonormalRows } from './orthonormal-rows.js';
import { type TEstimate, tEstimate } from './t-estimate.js';
import { turnedWeights } from './turned-weights.js';

/**
 * A weighted sum of coefficients with the heteroscedasticity-consistent standard error HC3: right where independent
 * observations vary differently, and close to leaving out one observation at a time.
 *
 * Judged by Student's t with the fit's degrees of freedom, as is customary. Not for observations that share a wall or another
 * cluster: those need `clusterRobust`. MacKinnon and White, Journal of Econometrics 29 (1985) 305–325; Long and Ervin, The
 * American Statistician 54 (2000) 217–224.
 *
 * @param weights by column name; columns not named weigh nothing
 * @throws StatisticsError `too-few` naming an observation that alone decides a coefficient, whose variance cannot be
 *   estimated; `no-variation` for a fit without residuals; `out-of-range` and `not-finite` as `contrast` does
 * @example varianceRobustContrast(fit, { 'arm: treated': 1 }).interval
 */
export function varianceRobustContrast(
  fit: LeastSquaresFit,
  weights: ContrastWeights,
  options: ContrastOptions = {},
): TEstimate {
  const where = 'varianceRobustContrast';
  const vector = weightVector(where, fit.design, weights);
  checkResiduals(where, fit);
  const turned = turnedWeights(fit.inverseFactor, vector);
  const rows = orthonormalRows(fit);
  const variance = fit.residuals.reduce((sum, residual, row) => {
    const place = rows.subarray(row * fit.rank, (row + 1) * fit.rank);
    return sum + (dot(place, turned) * leaveOneOutResidual(residual, dot(place, place), row)) ** 2;
  }, 0);
  const estimate = fit.coefficients.reduce((sum, coefficient, i) => sum + vector[i]! * coefficient.estimate, 0);
  return tEstimate(where, estimate, Math.sqrt(variance), fit.degreesOfFreedom, options.level ?? 0.95);
}

function leaveOneOutResidual(residual: number, leverage: number, row: number): number {
  if (leverage <= 1 - 1e-10) return residual / (1 - leverage);
  const detail = `needs observations that no coefficient hangs on alone: observation ${row + 1} has leverage 1; leave it out together with its column`;
  throw new StatisticsError('varianceRobustContrast', 'too-few', detail);
}
