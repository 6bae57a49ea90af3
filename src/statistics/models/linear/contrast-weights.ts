import { StatisticsError } from '../../statistics-error.js';
import type { DesignMatrix } from './design-matrix.js';
import type { Coefficient } from './least-squares.js';

/** Weight of each coefficient, by the name of its column; those not named weigh nothing. */
export type ContrastWeights = Readonly<Record<string, number>>;

/** The weights in the order of the columns. */
export function weightVector(where: string, design: DesignMatrix, weights: ContrastWeights): Float64Array {
  const names = design.columns.map(({ name }) => name);
  const vector = new Float64Array(names.length);
  for (const [name, weight] of Object.entries(weights)) {
    const index = names.indexOf(name);
    if (index < 0) {
      const detail = `needs names of columns, got "${name}"; the columns are ${names.map((known) => `"${known}"`).join(', ')}`;
      throw new StatisticsError(where, 'out-of-range', detail);
    }
    if (!Number.isFinite(weight)) {
      throw new StatisticsError(where, 'not-finite', `needs finite weights, got ${weight} for "${name}"`);
    }
    vector[index] = weight;
  }
  if (vector.every((weight) => weight === 0)) {
    throw new StatisticsError(where, 'out-of-range', 'needs at least one weight that is not zero');
  }
  return vector;
}

/** The coefficients' estimates, each times its weight, added up. */
export function weightedEstimate(coefficients: readonly Coefficient[], vector: Float64Array): number {
  return coefficients.reduce((sum, { estimate }, at) => sum + vector[at]! * estimate, 0);
}
