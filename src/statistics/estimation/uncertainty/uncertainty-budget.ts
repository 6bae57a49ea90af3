import type { CoverageOption, UncertaintyBudget } from './budget.js';
import { budgetOfTerms } from './budget-of-terms.js';
import type { InputCorrelation, InputQuantity } from './input-quantity.js';
import { type MeasurementModel, valuesByName } from './measurement-model.js';
import { sensitivityCoefficient } from './sensitivity-coefficient.js';

export interface BudgetOptions<Name extends string> {
  /** A level (0.95 unless given) or a coverage factor. */
  readonly coverage?: CoverageOption;
  /** Pairs of inputs whose errors go together; all others are independent. */
  readonly correlations?: readonly InputCorrelation<Name>[];
  /** Sensitivity coefficients known by formula, as functions of the inputs; the others are differenced numerically. */
  readonly sensitivities?: Readonly<Partial<Record<Name, MeasurementModel<Name>>>>;
}

/**
 * The uncertainty budget of a result: each input with its standard uncertainty, its sensitivity coefficient and its
 * contribution, the combined standard uncertainty, the effective degrees of freedom and the expanded uncertainty.
 *
 * @throws StatisticsError as `budgetOfTerms` and `sensitivityCoefficient`
 * @example
 * const inputs = [
 *   { name: 'mass', value: 10, standardUncertainty: 0.1, distribution: 'normal' },
 *   { name: 'volume', value: 5, standardUncertainty: 0.02, distribution: 'normal' },
 * ];
 * uncertaintyBudget(({ mass, volume }) => mass / volume, inputs).standardUncertainty // 0.02154, 2 · sqrt(0.01² + 0.004²)
 * @source JCGM 100:2008, clauses 5, 6 and 8 (from memory)
 */
export function uncertaintyBudget<Name extends string>(
  model: MeasurementModel<Name>,
  inputs: readonly InputQuantity<Name>[],
  options: BudgetOptions<Name> = {},
): UncertaintyBudget<Name> {
  const values = valuesByName('uncertaintyBudget', inputs);
  const terms = inputs.map((input) => ({
    ...input,
    sensitivity: options.sensitivities?.[input.name]?.(values) ?? sensitivityCoefficient(model, inputs, input),
  }));
  return budgetOfTerms(model(values), terms, options.coverage, options.correlations);
}
