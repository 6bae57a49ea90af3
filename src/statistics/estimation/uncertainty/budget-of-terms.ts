import { checkFinite } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';
import type { BudgetRow, BudgetTerm, CoverageOption, UncertaintyBudget } from './budget.js';
import { correlationMatrix } from './correlation-matrix.js';
import { correlationRoot } from './correlation-root.js';
import { coverageOf } from './coverage.js';
import { effectiveDegreesOfFreedom, type VariancePart } from './effective-degrees-of-freedom.js';
import type { InputCorrelation } from './input-quantity.js';
import { varianceParts } from './variance-parts.js';

const where = 'budgetOfTerms';

/**
 * The uncertainty budget of a result whose sensitivity coefficients are known by formula: the law of propagation,
 * u² = Σ cᵢ²uᵢ² + 2 Σ cᵢcⱼuᵢuⱼrᵢⱼ, as a table.
 *
 * It is first order: where the result bends over the width of an input, compare it with `monteCarloUncertainty`.
 *
 * @param correlations pairs that are not independent; see `varianceParts` for their degrees of freedom
 * @throws StatisticsError `not-finite`; `out-of-range` for a negative uncertainty, an impossible correlation, or
 *   degrees of freedom that correlated inputs do not share; `too-few` without terms
 * @example
 * const mass = { name: 'mass', value: 10, standardUncertainty: 0.1, distribution: 'normal', sensitivity: 0.2 };
 * const volume = { name: 'volume', value: 5, standardUncertainty: 0.02, distribution: 'normal', sensitivity: -0.4 };
 * budgetOfTerms(2, [mass, volume]).standardUncertainty // 0.02154
 * @source JCGM 100:2008, equations 13 and G.2b (from memory)
 */
export function budgetOfTerms<Name extends string>(
  value: number,
  terms: readonly BudgetTerm<Name>[],
  coverage: CoverageOption = {},
  correlations: readonly InputCorrelation<Name>[] = [],
): UncertaintyBudget<Name> {
  checkFinite(where, 'result', value);
  if (terms.length === 0) throw new StatisticsError(where, 'too-few', 'needs at least one input, got none');
  let independent = 0;
  let known = correlations.length === 0;
  for (const term of terms) {
    checkTerm(term);
    independent += (term.sensitivity * term.standardUncertainty) ** 2;
    known &&= term.degreesOfFreedom === undefined;
  }
  // Most budgets have neither correlations nor degrees of freedom, and there may be very many of them.
  const parts = known ? [] : correlations.length === 0 ? terms.map(asPart) : correlatedParts(terms, correlations);
  const variance = correlations.length === 0 ? independent : parts.reduce((sum, part) => sum + part.variance, 0);
  if (!Number.isFinite(variance))
    throw new StatisticsError(where, 'not-finite', 'needs inputs whose combined variance is a finite number');
  const standardUncertainty = Math.sqrt(variance);
  const degreesOfFreedom = effectiveDegreesOfFreedom(parts);
  return {
    value,
    standardUncertainty,
    rows: terms.map((term) => rowOf(term, variance)),
    varianceFromCorrelations: variance - independent,
    ...(degreesOfFreedom === undefined ? {} : { degreesOfFreedom }),
    coverage: coverageOf(where, { value, standardUncertainty, degreesOfFreedom }, coverage),
  };
}

function checkTerm({ name, value, standardUncertainty, sensitivity }: BudgetTerm): void {
  if (!(Number.isFinite(value) && Number.isFinite(standardUncertainty) && Number.isFinite(sensitivity)))
    throw new StatisticsError(
      where,
      'not-finite',
      `needs a finite value, uncertainty and sensitivity for ${name}, got ${value}, ${standardUncertainty} and ${sensitivity}`,
    );
  if (standardUncertainty < 0)
    throw new StatisticsError(
      where,
      'out-of-range',
      `needs a standard uncertainty of zero or more for ${name}, got ${standardUncertainty}`,
    );
}

function asPart({ sensitivity, standardUncertainty, degreesOfFreedom }: BudgetTerm): VariancePart {
  return { variance: (sensitivity * standardUncertainty) ** 2, degreesOfFreedom };
}

function correlatedParts(
  terms: readonly BudgetTerm[],
  correlations: readonly InputCorrelation[],
): readonly VariancePart[] {
  const matrix = correlationMatrix(
    where,
    terms.map((term) => term.name),
    correlations,
  );
  correlationRoot(where, matrix);
  return varianceParts(where, terms, matrix);
}

function rowOf<Name extends string>(term: BudgetTerm<Name>, variance: number): BudgetRow<Name> {
  const { name, value, standardUncertainty, distribution, degreesOfFreedom, sensitivity } = term;
  const contribution = Math.abs(sensitivity * standardUncertainty);
  const shareOfVariance = variance === 0 ? 0 : contribution ** 2 / variance;
  const row = { name, value, standardUncertainty, distribution, sensitivity, contribution, shareOfVariance };
  return degreesOfFreedom === undefined ? row : { ...row, degreesOfFreedom };
}
