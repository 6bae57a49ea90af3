import type { InputQuantity } from './input-quantity.js';

/** An input together with how much the result moves for a unit of it. */
export interface BudgetTerm<Name extends string = string> extends InputQuantity<Name> {
  /** ∂result/∂input at the inputs' values, in units of the result by unit of the input. */
  readonly sensitivity: number;
}

/** One line of the table. */
export interface BudgetRow<Name extends string = string> extends BudgetTerm<Name> {
  /** |sensitivity| × standard uncertainty, in the unit of the result. */
  readonly contribution: number;
  /** Contribution squared over the combined variance. With correlations the shares need not add up to one. */
  readonly shareOfVariance: number;
}

/** Half the width of an interval, and how it was chosen. */
export interface Coverage {
  readonly factor: number;
  /** Absent where the factor was stated and not computed from a level. */
  readonly level?: number;
  readonly expandedUncertainty: number;
  readonly lower: number;
  readonly upper: number;
}

/** A result with the table of what makes it uncertain. */
export interface UncertaintyBudget<Name extends string = string> {
  readonly value: number;
  /** The combined standard uncertainty, in the unit of the result. */
  readonly standardUncertainty: number;
  readonly rows: readonly BudgetRow<Name>[];
  /** What the correlations add to the combined variance; negative where they take away. */
  readonly varianceFromCorrelations: number;
  /** Effective degrees of freedom; absent where every standard uncertainty that matters is taken as known. */
  readonly degreesOfFreedom?: number;
  readonly coverage: Coverage;
}

/** Either the level that the interval is to have (0.95 unless given), or a coverage factor stated outright. */
export type CoverageOption = { readonly level?: number } | { readonly coverageFactor: number };
