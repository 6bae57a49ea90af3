import { StatisticsError } from '../../statistics-error.js';
import type { ClusterAxis } from './cluster-axes.js';
import { adjustment, type ClusterRobustFit } from './cluster-robust.js';
import type { ContrastOptions } from './contrast.js';
import { type ContrastWeights, weightedEstimate, weightVector } from './contrast-weights.js';
import { dot } from './dot.js';
import { type TEstimate, tEstimate } from './t-estimate.js';
import { turnedWeights } from './turned-weights.js';

/**
 * A weighted sum of coefficients with its CR2 standard error, judged by Student's t with the degrees of freedom of Bell and
 * McCaffrey: Satterthwaite's, from the first two moments of the variance estimator when errors are independent and alike.
 *
 * The degrees of freedom say how many clusters the contrast truly rests on, and may be far below their number. Under 4 the
 * approximation itself is poor (Pustejovsky and Tipton 2018, section 4). Time grows with the square of the number of clusters.
 *
 * @param weights by column name; columns not named weigh nothing
 * @throws StatisticsError `too-few` where the contrast rests on single clusters, so that its variance cannot be estimated;
 *   `no-variation` where the residuals that bear on it are all zero; `out-of-range` and `not-finite` as `contrast` does
 * @example clusterRobustContrast(clusterRobust(fit, unit), { 'arm: treated': 1 }).degreesOfFreedom // 4.0
 */
export function clusterRobustContrast(
  robust: ClusterRobustFit,
  weights: ContrastWeights,
  options: ContrastOptions = {},
): TEstimate {
  const where = 'clusterRobustContrast';
  const { fit, clusters } = robust;
  const vector = weightVector(where, fit.design, weights);
  const turned = turnedWeights(fit.inverseFactor, vector);
  const moments = clusters.map(({ axes }) => momentsOf(axes, turned));
  const scale = dot(turned, turned);
  const expected = moments.reduce((sum, { own }) => sum + own, 0);
  // Nothing but rounding is left where the clusters that the contrast rests on are fitted exactly.
  if (expected <= 1e-10 * scale) {
    const detail =
      'needs a contrast that more than one cluster bears on; here single clusters determine it alone, add clusters';
    throw new StatisticsError(where, 'too-few', detail);
  }
  const estimate = weightedEstimate(fit.coefficients, vector);
  const variance = clusters.reduce((sum, { score }) => sum + dot(score, turned) ** 2, 0);
  const degreesOfFreedom = expected ** 2 / squaredMoment(moments);
  return tEstimate(where, { estimate, standardError: Math.sqrt(variance), degreesOfFreedom }, options.level ?? 0.95);
}

/** A cluster's term of the variance estimator is the square of a normal variable when errors are independent and alike. */
interface ClusterMoments {
  /** Variance of that variable. */
  readonly own: number;
  /** Its covariance with another cluster's is minus the scalar product of the two. */
  readonly shared: Float64Array;
}

function momentsOf(axes: readonly ClusterAxis[], turned: Float64Array): ClusterMoments {
  const shared = new Float64Array(turned.length);
  let own = 0;
  for (const { share, direction } of axes) {
    const factor = adjustment(share);
    const along = dot(direction, turned);
    if (factor > 0) own += share * along * along;
    for (let j = 0; j < shared.length; j++) shared[j]! += share * factor * along * direction[j]!;
  }
  return { own, shared };
}

/** Sum of the squares of all variances and covariances of the clusters' variables. */
function squaredMoment(moments: readonly ClusterMoments[]): number {
  return moments.reduce((total, a, i) => {
    let pairs = 0;
    for (let j = 0; j < i; j++) pairs += dot(a.shared, moments[j]!.shared) ** 2;
    return total + a.own ** 2 + 2 * pairs;
  }, 0);
}
