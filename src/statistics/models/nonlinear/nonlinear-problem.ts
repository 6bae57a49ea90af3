/** A value for every parameter, by name. */
export type ParameterValues<Name extends string> = Readonly<Record<Name, number>>;

export interface ParameterBounds {
  readonly lower?: number;
  readonly upper?: number;
}

/** A model, the observations it is to go through, and where the search starts. */
export interface NonlinearProblem<Name extends string, X> {
  /** Expected response at one `x`. */
  readonly model: (parameters: ParameterValues<Name>, x: X) => number;
  /** One for every observation: a number, or whatever the model reads. */
  readonly x: readonly X[];
  readonly response: readonly number[];
  /** One start, or several to be tried in turn; the keys name the parameters. */
  readonly start: ParameterValues<Name> | readonly ParameterValues<Name>[];
  /** Closed bounds of some parameters; without them a parameter may take any value. */
  readonly bounds?: { readonly [Key in Name]?: ParameterBounds };
  /** Derivatives of the model by every parameter at one `x`. Without it they come from differences. */
  readonly gradient?: (parameters: ParameterValues<Name>, x: X) => ParameterValues<Name>;
}
