/**
 * A model over the observations as the search sees it: free parameters as a plain vector.
 *
 * Matrices are column-major: the derivative of observation `row` by parameter `j` stands at `j * rows + row`.
 */
export interface Curve {
  readonly names: readonly string[];
  readonly response: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** Values of the model, one for every observation; they need not be finite. */
  fitted(values: Float64Array): Float64Array;
  /** Derivatives of the model by every parameter; they need not be finite. */
  derivatives(values: Float64Array): Float64Array;
}
