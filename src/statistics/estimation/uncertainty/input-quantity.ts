/** What is known of an input beyond its standard uncertainty: the shape from which a Monte Carlo run draws. */
export type InputDistribution = 'normal' | 'rectangular' | 'triangular' | 'arcsine' | 'student-t';

/** One quantity that a result is computed from. */
export interface InputQuantity<Name extends string = string> {
  readonly name: Name;
  readonly value: number;
  /** Zero or more, in the unit of the value. For `student-t` the scale, s/√n, as in the guide, not the standard deviation. */
  readonly standardUncertainty: number;
  readonly distribution: InputDistribution;
  /** How many independent residuals the standard uncertainty rests on; absent where it is taken as known. */
  readonly degreesOfFreedom?: number;
}

/** How strongly the errors of two inputs go together, from −1 to 1. Pairs that are not named are independent. */
export interface InputCorrelation<Name extends string = string> {
  readonly between: readonly [Name, Name];
  readonly coefficient: number;
}
