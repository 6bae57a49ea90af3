import type { DesignMatrix } from '../linear/design-matrix.js';
import type { ParameterValues } from '../nonlinear/nonlinear-problem.js';

/** Parameters that differ at random between the levels of a grouping. */
export interface RandomParameters<Name extends string> {
  readonly name: string;
  /** The level of each observation. Levels of a nested grouping need labels of their own: "wall 3, station 1", not "1". */
  readonly groups: readonly (string | number)[];
  readonly parameters: readonly Name[];
  /** Whether the effects of one level may be correlated (`unstructured`) or not (`diagonal`, the default). */
  readonly covariance?: 'unstructured' | 'diagonal';
}

/** A curve whose parameters are each a linear model, of fixed effects and of effects at random. */
export interface NonlinearMixedModel<Name extends string, X> {
  /** Expected response at one `x`. */
  readonly model: (parameters: ParameterValues<Name>, x: X) => number;
  /** One for every observation. */
  readonly x: readonly X[];
  readonly response: readonly number[];
  /** What a parameter's fixed part is made of, as many rows as observations; a parameter not named has one value for all. */
  readonly fixed?: { readonly [Key in Name]?: DesignMatrix };
  readonly random: readonly RandomParameters<Name>[];
  /** A start for every parameter: the value of its first column; further columns start at zero. */
  readonly start: ParameterValues<Name>;
  /** Restricted maximum likelihood (`reml`) or maximum likelihood (`ml`) of the straightened model. */
  readonly method: 'reml' | 'ml';
}
