import { StatisticsError } from '../../statistics-error.js';
import type { UncertaintyBudget } from './budget.js';
import { correlationMatrix } from './correlation-matrix.js';
import type { InputCorrelation } from './input-quantity.js';

/**
 * How the errors of two results go together that were computed from the same inputs: their correlation coefficient,
 * Σ cᵢ dⱼ uᵢ uⱼ rᵢⱼ over the product of the combined standard uncertainties.
 *
 * @throws StatisticsError `lengths-differ` where the inputs are not the same, `no-variation` where a result is certain
 * @example
 * const budgetOf = (share) => uncertaintyBudget(({ first, second }) => first + share * second, [
 *   { name: 'first', value: 1, standardUncertainty: 0.1, distribution: 'normal' },
 *   { name: 'second', value: 2, standardUncertainty: 0.1, distribution: 'normal' },
 * ]);
 * correlationOfResults(budgetOf(0), budgetOf(1)) // 0.7071
 * @source JCGM 100:2008, equation H.9 (from memory)
 */
export function correlationOfResults<Name extends string>(
  first: UncertaintyBudget<Name>,
  second: UncertaintyBudget<Name>,
  correlations: readonly InputCorrelation<Name>[] = [],
): number {
  const where = 'correlationOfResults';
  const names = first.rows.map((row) => row.name);
  if (names.length !== second.rows.length || second.rows.some((row, index) => row.name !== names[index]))
    throw new StatisticsError(where, 'lengths-differ', 'needs two budgets of the same inputs in the same order');
  const scale = first.standardUncertainty * second.standardUncertainty;
  if (scale === 0) throw new StatisticsError(where, 'no-variation', 'needs two results that are uncertain');
  const matrix = correlationMatrix(where, names, correlations);
  let covariance = 0;
  for (const [row, one] of first.rows.entries())
    for (const [column, other] of second.rows.entries())
      covariance +=
        one.sensitivity *
        one.standardUncertainty *
        other.sensitivity *
        other.standardUncertainty *
        ((matrix[row] as Float64Array)[column] as number);
  return Math.max(-1, Math.min(1, covariance / scale));
}
