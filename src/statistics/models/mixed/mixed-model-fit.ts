import type { Coefficient } from '../linear/least-squares.js';
import type { DevianceProblem } from './deviance.js';
import type { Grouping } from './grouping.js';
import type { MixedModel } from './mixed-model.js';

/** What was found about one random term. */
export interface RandomTermFit {
  readonly name: string;
  /** Names of its columns; `intercept` where none were given. */
  readonly columns: readonly string[];
  /** Covariance of the effects of one level, by column, in squared units of the response per unit of the columns. */
  readonly covariance: readonly (readonly number[])[];
  /** Square roots of the diagonal of the covariance. */
  readonly standardDeviations: readonly number[];
  /** Correlations between columns; zero where one does not vary. */
  readonly correlations: readonly (readonly number[])[];
  /** Conditional modes (best linear unbiased predictions): for each level, one effect per column. */
  readonly modes: readonly { readonly level: string; readonly effects: readonly number[] }[];
}

export type ResidualFit =
  | { readonly kind: 'equal'; readonly standardDeviation: number }
  | {
      readonly kind: 'by-group';
      readonly groups: readonly { readonly group: string; readonly standardDeviation: number }[];
    }
  | { readonly kind: 'autoregressive'; readonly standardDeviation: number; readonly correlation: number }
  | {
      readonly kind: 'autoregressive-by-group';
      readonly groups: readonly { readonly group: string; readonly standardDeviation: number }[];
      readonly correlation: number;
    };

/** A fitted linear mixed model. */
export interface MixedModelFit {
  readonly model: MixedModel;
  readonly observations: number;
  /** Fixed effects, in the order of the design. */
  readonly coefficients: readonly Coefficient[];
  /** Covariance of the coefficients, row-major. */
  readonly covariance: Float64Array;
  readonly random: readonly RandomTermFit[];
  readonly residual: ResidualFit;
  /** Restricted log-likelihood where the method is `reml`. */
  readonly logLikelihood: number;
  /** Fixed effects, variances, covariances and residual parameters, counted together. */
  readonly parameters: number;
  /** Names of the random terms whose covariance is singular: a zero variance, or a correlation of 1 or -1. */
  readonly boundary: readonly string[];
  readonly optimiser: { readonly evaluations: number; readonly converged: boolean };
  /** Fixed effects and conditional modes together. */
  readonly fitted: readonly number[];
  /** Conditional residuals: response less fitted. */
  readonly residuals: readonly number[];
  /** For tests and intervals made from the fit; not part of the answer. */
  readonly workings: Workings;
}

/** What was computed on the way and is needed again. */
export interface Workings {
  readonly problem: DevianceProblem;
  /** Where the deviance is least. */
  readonly point: Float64Array;
  /** Levels of each random term, in the model's order. */
  readonly groupings: readonly Grouping[];
  /** What the response was divided by. */
  readonly scale: number;
  /** Upper triangular, row-major: coefficients are this matrix times those on the turned columns. */
  readonly turn: Float64Array;
}
