import { StatisticsError } from '../../statistics-error.js';
import { type ContrastWeights, weightVector } from '../linear/contrast-weights.js';
import type { MixedModelFit } from './mixed-model-fit.js';

/** Weights by column name, as one row of numbers in the order of the design. */
export function contrastRow(where: string, fit: MixedModelFit, weights: ContrastWeights): Float64Array {
  return weightVector(where, fit.model.fixed, weights);
}

/** Rows of several contrasts, none of which the others imply. */
export function contrastRows(where: string, fit: MixedModelFit, contrasts: readonly ContrastWeights[]): Float64Array[] {
  if (contrasts.length === 0) throw new StatisticsError(where, 'too-few', 'needs at least one contrast');
  const rows = contrasts.map((weights) => contrastRow(where, fit, weights));
  const rest = rows.map((row) => Float64Array.from(row));
  rest.forEach((row, at) => {
    const whole = Math.hypot(...row);
    for (let pass = 0; pass < 2; pass++) for (const earlier of rest.slice(0, at)) takeOut(row, earlier);
    const left = Math.hypot(...row);
    // A remainder this small is the rounding of contrasts that were written with decimals.
    if (left > 1e-9 * whole) return;
    const detail = `needs contrasts that say different things: number ${at + 1} follows from those before it; remove it`;
    throw new StatisticsError(where, 'collinear', detail);
  });
  return rows;
}

function takeOut(row: Float64Array, other: Float64Array): void {
  const share = dot(row, other) / dot(other, other);
  other.forEach((value, at) => {
    row[at]! -= share * value;
  });
}

export function dot(one: Float64Array, other: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < one.length; k++) sum += one[k]! * other[k]!;
  return sum;
}

/** The contrasts' estimates. */
export function contrastEstimate(fit: MixedModelFit, row: Float64Array): number {
  return fit.coefficients.reduce((sum, { estimate }, at) => sum + row[at]! * estimate, 0);
}

/** row' matrix column, for a square matrix. */
export function quadraticForm(matrix: Float64Array, row: Float64Array, column: Float64Array): number {
  const size = row.length;
  let sum = 0;
  for (let i = 0; i < size; i++) {
    if (row[i] === 0) continue;
    for (let j = 0; j < size; j++) sum += row[i]! * matrix[i * size + j]! * column[j]!;
  }
  return sum;
}

/** row_i' matrix row_j for each pair. */
export function crossForms(matrix: Float64Array, rows: readonly Float64Array[]): Float64Array {
  const count = rows.length;
  return Float64Array.from({ length: count * count }, (_, at) =>
    quadraticForm(matrix, rows[Math.floor(at / count)]!, rows[at % count]!),
  );
}
