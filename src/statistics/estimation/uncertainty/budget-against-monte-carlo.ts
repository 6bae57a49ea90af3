import { StatisticsError } from '../../statistics-error.js';
import type { UncertaintyBudget } from './budget.js';
import type { MonteCarloResult } from './monte-carlo-uncertainty.js';

/** Whether first-order propagation was good enough, in the digits that are reported. */
export interface BudgetCheck {
  readonly agrees: boolean;
  /** Half a unit of the last digit of the standard uncertainty that is reported. */
  readonly tolerance: number;
  readonly lowerDiffersBy: number;
  readonly upperDiffersBy: number;
}

/**
 * Holds the interval of a budget against that of a Monte Carlo run: they agree where both ends differ by no more than
 * half a unit in the last reported digit of the standard uncertainty.
 *
 * @param digits how many digits of the standard uncertainty are reported: 1 or 2; 2 unless given
 * @throws StatisticsError `out-of-range` where the two have not the same level, `no-variation` for a certain result
 * @example
 * const inputs = [
 *   { name: 'mass', value: 10, standardUncertainty: 0.1, distribution: 'normal' },
 *   { name: 'volume', value: 5, standardUncertainty: 0.02, distribution: 'rectangular' },
 * ];
 * const density = ({ mass, volume }) => mass / volume;
 * const simulated = monteCarloUncertainty(density, inputs, { seed: 1, trials: 20_000 });
 * budgetAgainstMonteCarlo(uncertaintyBudget(density, inputs), simulated).agrees // true
 * @source JCGM 101:2008, 7.9.2 and 8.1 (from memory)
 */
export function budgetAgainstMonteCarlo(
  budget: UncertaintyBudget,
  simulated: MonteCarloResult,
  digits: 1 | 2 = 2,
): BudgetCheck {
  const where = 'budgetAgainstMonteCarlo';
  if (budget.coverage.level !== simulated.interval.level)
    throw new StatisticsError(
      where,
      'out-of-range',
      `needs two intervals of one level, got ${budget.coverage.level ?? 'a stated factor'} and ${simulated.interval.level}`,
    );
  if (!(budget.standardUncertainty > 0))
    throw new StatisticsError(where, 'no-variation', 'needs a result that is uncertain');
  const lastDigit = 10 ** (Math.floor(Math.log10(budget.standardUncertainty)) - (digits - 1));
  const tolerance = lastDigit / 2;
  const lowerDiffersBy = Math.abs(budget.coverage.lower - simulated.interval.lower);
  const upperDiffersBy = Math.abs(budget.coverage.upper - simulated.interval.upper);
  return {
    agrees: lowerDiffersBy <= tolerance && upperDiffersBy <= tolerance,
    tolerance,
    lowerDiffersBy,
    upperDiffersBy,
  };
}
