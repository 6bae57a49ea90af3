/**
 * The cross-products weighted by the inverse of the residual correlation, as a sum of fixed matrices with weights that
 * depend on the residual parameters. So a trial of those parameters costs no pass over the observations.
 */
export interface ResidualProducts {
  /** Starting values of the residual parameters, which may be any real numbers. */
  readonly start: readonly number[];
  readonly components: readonly Float64Array[];
  readonly weigh: (parameters: readonly number[]) => ResidualWeights;
}

export interface ResidualWeights {
  /** Of each component. */
  readonly weights: readonly number[];
  /** Derivatives of the weights, by parameter. */
  readonly slopes: readonly (readonly number[])[];
  /** Logarithm of the determinant of the residual correlation (relative covariance), and its derivatives. */
  readonly logDeterminant: number;
  readonly logDeterminantSlopes: readonly number[];
}
