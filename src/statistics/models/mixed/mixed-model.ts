import type { DesignColumn, DesignMatrix } from '../linear/design-matrix.js';

/** Effects drawn at random for every level of a grouping: intercepts, slopes, or both. */
export interface RandomTerm {
  readonly name: string;
  /**
   * The level of each observation. Levels of a nested grouping need labels of their own: "wall 3, station 1", not "1".
   */
  readonly groups: readonly (string | number)[];
  /** What varies between levels; left out, an intercept alone. An intercept is a column of ones. */
  readonly columns?: readonly DesignColumn[];
  /** Whether the effects of one level may be correlated (`unstructured`, the default) or not (`diagonal`). */
  readonly covariance?: 'unstructured' | 'diagonal';
  /** The levels that should be there; one without an observation is refused. Left out, the levels found. */
  readonly levels?: readonly (string | number)[];
}

/** Variances and correlations of the residuals of one model. */
export type ResidualStructure =
  | { readonly kind: 'equal' }
  /** A variance of its own for each group, such as an instrument. */
  | { readonly kind: 'by-group'; readonly groups: readonly (string | number)[] }
  /**
   * First-order autoregression inside each series: observations `h` steps apart correlate as the h-th power. `steps`
   * are whole numbers, such as the number of the visit; a visit left out leaves a gap.
   */
  | {
      readonly kind: 'autoregressive';
      readonly series: readonly (string | number)[];
      readonly steps: readonly number[];
    }
  /**
   * Both: a variance of its own for each group, and first-order autoregression inside each series of what the residuals
   * are in units of their standard deviations. A series may pass from one group to another, as when an instrument is
   * changed.
   */
  | {
      readonly kind: 'autoregressive-by-group';
      readonly series: readonly (string | number)[];
      readonly steps: readonly number[];
      readonly groups: readonly (string | number)[];
    };

/** A linear mixed model and the data to fit it to, as plain columns of one length. */
export interface MixedModel {
  readonly response: readonly number[];
  readonly fixed: DesignMatrix;
  readonly random: readonly RandomTerm[];
  /** Defaults to `equal`. */
  readonly residual?: ResidualStructure;
  /** Restricted maximum likelihood (`reml`) or maximum likelihood (`ml`). */
  readonly method: 'reml' | 'ml';
}
