import { groupBy } from '../../../plain/group-by.js';
import { StatisticsError } from '../../statistics-error.js';
import { checkResiduals } from './check-residuals.js';
import { type ClusterAxis, clusterAxes } from './cluster-axes.js';
import { dot } from './dot.js';
import type { LeastSquaresFit } from './least-squares.js';
import { orthonormalRows } from './orthonormal-rows.js';

/** A fit with the bias-reduced cluster-robust covariance CR2 of its coefficients. */
export interface ClusterRobustFit {
  readonly kind: 'cr2';
  readonly fit: LeastSquaresFit;
  /** Covariance of the coefficients, row-major. */
  readonly covariance: Float64Array;
  readonly clusters: readonly ClusterPart[];
}

/** What one cluster brings to the covariance and to its degrees of freedom. */
export interface ClusterPart {
  readonly cluster: string;
  readonly observations: number;
  readonly axes: readonly ClusterAxis[];
  /** The cluster's adjusted residuals summed against the design in its orthonormal basis. */
  readonly score: Float64Array;
}

/** A share this close to 1 is 1: the cluster alone determines something, its residuals there are zero and say nothing. */
const WHOLE_SHARE_ABOVE = 1 - 1e-10;

/**
 * Covariance of least-squares coefficients when observations of the same cluster may be correlated in any way and vary
 * differently: the "bias-reduced linearization" CR2, exactly unbiased where errors are in truth independent and alike.
 *
 * Residuals of a cluster are multiplied by the symmetric inverse square root of its block of `I - H`, the pseudo-inverse
 * where that block is singular. All is computed in the space of the coefficients, so that neither time nor memory grows
 * with the square of the number of observations. Judge coefficients by `clusterRobustContrast`.
 *
 * Bell and McCaffrey, Survey Methodology 28 (2002) 169–181; Pustejovsky and Tipton, Journal of Business & Economic
 * Statistics 36 (2018) 672–683, with independent errors of one variance as the working model.
 *
 * @param clusters the cluster of each observation, for instance the wall
 * @throws StatisticsError `lengths-differ`; `too-few` with fewer than two clusters; `no-variation` for a fit without residuals
 * @example clusterRobust(fit, unit).clusters.length // 6
 */
export function clusterRobust(fit: LeastSquaresFit, clusters: readonly string[]): ClusterRobustFit {
  checkResiduals('clusterRobust', fit);
  const turned = orthonormalRows(fit);
  const parts = Array.from(membersByCluster(fit, clusters), ([cluster, members]) => {
    const axes = clusterAxes(turned, fit.rank, members);
    const score = adjustedScore(fit, turned, members, axes);
    return { cluster, observations: members.length, axes, score };
  });
  return { kind: 'cr2', fit, covariance: covarianceOf(fit, parts), clusters: parts };
}

/** What a share is multiplied by: the inverse square root of what the rest of the data decides, nothing where it is all. */
export function adjustment(share: number): number {
  return share > WHOLE_SHARE_ABOVE ? 0 : 1 / Math.sqrt(1 - share);
}

function membersByCluster(fit: LeastSquaresFit, clusters: readonly string[]): ReadonlyMap<string, readonly number[]> {
  const rows = fit.residuals.length;
  if (clusters.length !== rows) {
    const detail = `needs the cluster of every observation: got ${clusters.length} clusters for ${rows} observations`;
    throw new StatisticsError('clusterRobust', 'lengths-differ', detail);
  }
  const members = groupBy(clusters.keys(), (row) => clusters[row]);
  if (members.size < 2) {
    const detail = `needs at least two clusters, got ${members.size}; with one cluster nothing is known of how clusters differ`;
    throw new StatisticsError('clusterRobust', 'too-few', detail);
  }
  return members;
}

function adjustedScore(
  fit: LeastSquaresFit,
  turned: Float64Array,
  members: readonly number[],
  axes: readonly ClusterAxis[],
): Float64Array {
  const { rank, residuals } = fit;
  const score = new Float64Array(rank);
  for (const row of members) {
    for (let j = 0; j < rank; j++) score[j]! += residuals[row]! * turned[row * rank + j]!;
  }
  const along = axes.map(({ share, direction }) => (adjustment(share) - 1) * dot(direction, score));
  axes.forEach(({ direction }, k) => {
    for (let j = 0; j < rank; j++) score[j]! += along[k]! * direction[j]!;
  });
  return score;
}

function covarianceOf(fit: LeastSquaresFit, parts: readonly ClusterPart[]): Float64Array {
  const { rank, inverseFactor } = fit;
  const covariance = new Float64Array(rank * rank);
  for (const { score } of parts) {
    const influence = Float64Array.from(score, (_, row) =>
      dot(inverseFactor.subarray(row * rank, (row + 1) * rank), score),
    );
    for (let i = 0; i < rank; i++) {
      for (let j = 0; j < rank; j++) covariance[i * rank + j]! += influence[i]! * influence[j]!;
    }
  }
  return covariance;
}
