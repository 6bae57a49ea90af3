import { StatisticsError } from '../../statistics-error.js';
import type { BudgetTerm } from './budget.js';
import type { VariancePart } from './effective-degrees-of-freedom.js';

/**
 * The combined variance cut into independent parts: an uncorrelated input is a part, and so is every set of inputs tied
 * together by correlations. Welch–Satterthwaite adds only independent parts.
 *
 * Inputs that are correlated are taken as evaluated from one joint set of observations, and a linear combination of
 * them then has that set's degrees of freedom, as in the guide's calibration of a thermometer.
 */
export function varianceParts(
  where: string,
  terms: readonly BudgetTerm[],
  correlations: readonly Float64Array[],
): readonly VariancePart[] {
  const left = new Set(terms.keys());
  const parts: VariancePart[] = [];
  for (const start of terms.keys()) {
    if (!left.has(start)) continue;
    const members = tiedTo(start, correlations, left);
    parts.push({
      variance: varianceOf(members, terms, correlations),
      degreesOfFreedom: sharedDegreesOfFreedom(
        where,
        members.map((member) => terms[member] as BudgetTerm),
      ),
    });
  }
  return parts;
}

function tiedTo(start: number, correlations: readonly Float64Array[], left: Set<number>): readonly number[] {
  const members = [start];
  left.delete(start);
  for (const member of members)
    for (const [other, coefficient] of (correlations[member] as Float64Array).entries())
      if (coefficient !== 0 && left.delete(other)) members.push(other);
  return members;
}

function varianceOf(
  members: readonly number[],
  terms: readonly BudgetTerm[],
  correlations: readonly Float64Array[],
): number {
  const signed = (index: number) => {
    const { sensitivity, standardUncertainty } = terms[index] as BudgetTerm;
    return sensitivity * standardUncertainty;
  };
  let variance = 0;
  for (const row of members)
    for (const column of members)
      variance += signed(row) * signed(column) * ((correlations[row] as Float64Array)[column] as number);
  // Perfect dependence can cancel exactly, and rounding must not leave a negative variance.
  return Math.max(0, variance);
}

function sharedDegreesOfFreedom(where: string, members: readonly BudgetTerm[]): number | undefined {
  const stated = new Set(members.map((member) => member.degreesOfFreedom));
  if (stated.size > 1)
    throw new StatisticsError(
      where,
      'out-of-range',
      `needs the same degrees of freedom for correlated inputs (${members.map((member) => member.name).join(', ')}); leave them out and state a coverage factor`,
    );
  return members[0]?.degreesOfFreedom;
}
