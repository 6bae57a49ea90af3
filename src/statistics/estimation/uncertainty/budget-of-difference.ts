import { StatisticsError } from '../../statistics-error.js';
import type { BudgetRow, BudgetTerm, CoverageOption, UncertaintyBudget } from './budget.js';
import { budgetOfTerms } from './budget-of-terms.js';

export interface DifferenceOptions {
  /**
   * Inputs whose error was the same both times (the same reference, the same bias): it cancels as far as the two
   * sensitivities agree. Every other input erred afresh, and its two parts add.
   */
  readonly shared: readonly string[];
  readonly coverage?: CoverageOption;
}

/**
 * The uncertainty budget of a change, after less before, from the budgets of the two results.
 *
 * An input that is shared is one line of the table, with the difference of its two contributions; any other is two
 * lines, named `… (after)` and `… (before)`.
 *
 * @throws StatisticsError `empty-level` where a shared input is missing from a budget; `out-of-range` where a budget
 *   has correlations of its own, which this does not carry
 * @example
 * const budgetOf = (reading) => uncertaintyBudget(({ reading, bias }) => reading + bias, [
 *   { name: 'reading', value: reading, standardUncertainty: 0.3, distribution: 'normal' },
 *   { name: 'bias', value: 0, standardUncertainty: 0.5, distribution: 'rectangular' },
 * ]);
 * budgetOfDifference(budgetOf(7), budgetOf(9), { shared: ['bias'] }).standardUncertainty // 0.4243
 */
export function budgetOfDifference(
  after: UncertaintyBudget,
  before: UncertaintyBudget,
  options: DifferenceOptions,
): UncertaintyBudget {
  if (after.varianceFromCorrelations !== 0 || before.varianceFromCorrelations !== 0)
    throw new StatisticsError('budgetOfDifference', 'out-of-range', 'needs budgets of uncorrelated inputs');
  const shared = new Set(options.shared);
  const terms = [
    ...[...shared].map((name) => sharedTerm(rowNamed(after, name), rowNamed(before, name))),
    ...after.rows.filter((row) => !shared.has(row.name)).map((row) => freshTerm(row, 'after', 1)),
    ...before.rows.filter((row) => !shared.has(row.name)).map((row) => freshTerm(row, 'before', -1)),
  ];
  return budgetOfTerms(after.value - before.value, terms, options.coverage);
}

function rowNamed(budget: UncertaintyBudget, name: string): BudgetRow {
  const row = budget.rows.find((candidate) => candidate.name === name);
  if (row === undefined)
    throw new StatisticsError('budgetOfDifference', 'empty-level', `needs ${name} in both budgets to call it shared`);
  return row;
}

/** One error that moved both results, in units of the larger of its two standard uncertainties. */
function sharedTerm(after: BudgetRow, before: BudgetRow): BudgetTerm {
  const scale = Math.max(after.standardUncertainty, before.standardUncertainty);
  const moved = after.sensitivity * after.standardUncertainty - before.sensitivity * before.standardUncertainty;
  return {
    ...termOf(after),
    value: after.value - before.value,
    standardUncertainty: scale,
    sensitivity: scale === 0 ? after.sensitivity - before.sensitivity : moved / scale,
  };
}

function freshTerm(row: BudgetRow, when: 'after' | 'before', sign: 1 | -1): BudgetTerm {
  return { ...termOf(row), name: `${row.name} (${when})`, sensitivity: sign * row.sensitivity };
}

function termOf({ contribution, shareOfVariance, ...term }: BudgetRow): BudgetTerm {
  return term;
}
