import { StatisticsError } from '../../statistics-error.js';
import { checkResiduals } from './check-residuals.js';
import type { ContrastOptions } from './contrast.js';
import { type ContrastWeights, weightedEstimate, weightVector } from './contrast-weights.js';
import { dot } from './dot.js';
import type { LeastSquaresFit } from './least-squares.js';
import { orthonormalRows } from './orthonormal-rows.js';
import { type TEstimate, tEstimate } from './t-estimate.js';
import { turnedWeights } from './turned-weights.js';
import { varianceRobustReference } from './variance-robust-reference.js';

export interface VarianceRobustOptions extends ContrastOptions {
  /**
   * What the statistic is judged by: `matched`, the default, the standard error brought to the right mean under equal
   * variances and Student's t with degrees of freedom from the design; `customary`, HC3 as it is and Student's t with the fit's
   * degrees of freedom, which is too long with few observations.
   */
  readonly reference?: 'matched' | 'customary';
}

/**
 * A weighted sum of coefficients with the heteroscedasticity-consistent standard error HC3: right where independent
 * observations vary differently, and close to leaving out one observation at a time.
 *
 * With few observations that error is too large on average: n / (n - 1) times in variance for arms of n. So unless told, the error
 * is divided by the root of what it is too large by under equal variances, and judged by Student's t with the degrees of freedom
 * that `varianceRobustReference` matches to the design. The standard error and statistic given are those that interval and p-value
 * are made of; HC3 itself is what `customary` gives. Not for observations that share a wall or another
 * cluster: those need `clusterRobust`. MacKinnon and White, Journal of Econometrics 29 (1985) 305–325; Long and Ervin, The
 * American Statistician 54 (2000) 217–224.
 *
 * @param weights by column name; columns not named weigh nothing
 * @throws StatisticsError `too-few` naming an observation that alone decides a coefficient, whose variance cannot be
 *   estimated; `no-variation` for a fit without residuals; `out-of-range` and `not-finite` as `contrast` does
 * @example varianceRobustContrast(fit, { 'arm: treated': 1 }).interval // { level: 0.95, lower: -2.673, upper: -1.26 }
 */
export function varianceRobustContrast(
  fit: LeastSquaresFit,
  weights: ContrastWeights,
  options: VarianceRobustOptions = {},
): TEstimate {
  const where = 'varianceRobustContrast';
  const vector = weightVector(where, fit.design, weights);
  checkResiduals(where, fit);
  const turned = turnedWeights(fit.inverseFactor, vector);
  const rows = orthonormalRows(fit);
  const factors = fit.residuals.map((_, row) => {
    const place = rows.subarray(row * fit.rank, (row + 1) * fit.rank);
    return dot(place, turned) / leftWithout(dot(place, place), row);
  });
  const variance = fit.residuals.reduce((sum, residual, row) => sum + (factors[row]! * residual) ** 2, 0);
  const estimate = weightedEstimate(fit.coefficients, vector);
  const standardError = Math.sqrt(variance);
  const level = options.level ?? 0.95;
  if (options.reference === 'customary') {
    return tEstimate(where, { estimate, standardError, degreesOfFreedom: fit.degreesOfFreedom }, level);
  }
  const squares = factors.map((factor) => factor ** 2);
  const matched = varianceRobustReference(rows, fit.rank, squares, dot(turned, turned));
  return tEstimate(
    where,
    { estimate, standardError: standardError / Math.sqrt(matched.bias), degreesOfFreedom: matched.degreesOfFreedom },
    level,
  );
}

/** One less the leverage: a residual over it is the error of predicting the observation from the others. */
function leftWithout(leverage: number, row: number): number {
  if (leverage <= 1 - 1e-10) return 1 - leverage;
  const detail = `needs coefficients that depend on more than one observation: observation ${row + 1} has leverage 1; leave it out together with its column`;
  throw new StatisticsError('varianceRobustContrast', 'too-few', detail);
}
