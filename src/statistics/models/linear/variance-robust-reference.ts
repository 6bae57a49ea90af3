import { dot } from './dot.js';

/** The reference distribution of a variance-robust t statistic: a multiple of Student's t. */
export interface VarianceRobustReference {
  /** Mean of the variance estimator over the true variance, where all observations vary alike. */
  readonly bias: number;
  readonly degreesOfFreedom: number;
}

/**
 * Matches a scaled chi-square to a sum of weighted squared residuals by its first two moments under equal error variances.
 *
 * With residuals M e, the estimator sum(a_i (M e)_i^2) has mean sum(a_i M_ii) and variance 2 sum(a_i a_j M_ij^2) in units of
 * the error variance. Bell and McCaffrey, Survey Methodology 28 (2002) 169–181; Imbens and Kolesár, Review of Economics and
 * Statistics 98 (2016) 701–712.
 *
 * @param rows orthonormal rows of the design, rank numbers an observation
 * @param squares a_i, by observation
 * @param variance the true variance of the estimate in units of the error variance
 */
export function varianceRobustReference(
  rows: Float64Array,
  rank: number,
  squares: readonly number[],
  variance: number,
): VarianceRobustReference {
  const product = new Float64Array(rank * rank);
  let mean = 0;
  let spread = 0;
  squares.forEach((square, row) => {
    const place = rows.subarray(row * rank, (row + 1) * rank);
    const leverage = dot(place, place);
    mean += square * (1 - leverage);
    spread += square * square * (1 - 2 * leverage);
    for (let i = 0; i < rank; i++) {
      for (let j = 0; j < rank; j++) product[i * rank + j]! += square * place[i]! * place[j]!;
    }
  });
  // The off-diagonal entries of M are those of minus the hat matrix, whose squares sum to those of a rank x rank product.
  spread += dot(product, product);
  return { bias: mean / variance, degreesOfFreedom: mean ** 2 / spread };
}
