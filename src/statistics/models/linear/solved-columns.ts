/** Least squares of one response on columns, in whatever scale the columns came. */
export interface Solution {
  readonly coefficients: Float64Array;
  /** Inverse of R, row-major and upper triangular: the design times it has orthonormal columns. */
  readonly inverseFactor: Float64Array;
  /** Inverse of the cross-products of the columns, row-major. */
  readonly unscaledCovariance: Float64Array;
  readonly residuals: Float64Array;
  readonly residualSumOfSquares: number;
}
