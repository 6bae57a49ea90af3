import { budgetOfDifference, type CoverageOption, type UncertaintyBudget } from '../../statistics/index.js';
import type { GravimetricBudget } from './gravimetric-budget.js';
import type { GravimetricTerm } from './gravimetric-errors.js';

/**
 * The budget of a core's change between two visits. What erred the same way both times (the same oven and stop rule, the
 * same drill) is shared and cancels as far as the sensitivities agree; everything else adds.
 *
 * @throws StatisticsError `empty-level` where a shared term is missing from a budget
 * @example
 * const [after, before] = [50.2, 52.36].map((wet_g) => gravimetricBudget({ ...core, wet_g }, errors));
 * gravimetricChange(after, before, ['drying', 'sampling loss']).standardUncertainty // 0.02183
 */
export function gravimetricChange(
  after: GravimetricBudget,
  before: GravimetricBudget,
  shared: readonly GravimetricTerm[],
  coverage: CoverageOption = {},
): UncertaintyBudget {
  return budgetOfDifference(after, before, { shared, coverage });
}
