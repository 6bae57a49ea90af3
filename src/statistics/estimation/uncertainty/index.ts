// Uncertainty of a result from its inputs: budgets, changes, and Monte Carlo as their check.
export type { BudgetRow, BudgetTerm, Coverage, CoverageOption, UncertaintyBudget } from './budget.js';
export { type BudgetCheck, budgetAgainstMonteCarlo } from './budget-against-monte-carlo.js';
export { budgetOfDifference, type DifferenceOptions } from './budget-of-difference.js';
export { budgetOfTerms } from './budget-of-terms.js';
export { correlationOfResults } from './correlation-of-results.js';
export { inputFromHalfWidth, inputFromReadings } from './evaluated-inputs.js';
export type { InputCorrelation, InputDistribution, InputQuantity } from './input-quantity.js';
export type { MeasurementModel } from './measurement-model.js';
export { type MonteCarloOptions, type MonteCarloResult, monteCarloUncertainty } from './monte-carlo-uncertainty.js';
export { sensitivityCoefficient } from './sensitivity-coefficient.js';
export { type BudgetOptions, uncertaintyBudget } from './uncertainty-budget.js';
