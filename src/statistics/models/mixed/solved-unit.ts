import type { DevianceProblem } from './deviance.js';
import type { UnitProducts } from './unit-products.js';

/** Z' V^-1 Z, row-major, and Z' V^-1 X, a row for each effect, of one unit for a residual variance of 1. */
export interface SolvedUnit {
  readonly effects: Float64Array;
  readonly fixed: Float64Array;
}

/** Works on cross-products: with A those of the unit and F its factor, the answer is A - AF (F'AF + I)^-1 F'A. */
export function solvedUnit(
  unit: UnitProducts,
  { terms, fixedEffects }: DevianceProblem,
  factors: readonly Float64Array[],
): SolvedUnit {
  const { size } = unit;
  const width = size + fixedEffects;
  // Rows of the transposed factor times [Z'Z | Z'X].
  const turned = new Float64Array(size * width);
  unit.terms.forEach((term, at) => {
    const height = terms[term]!.size;
    const factor = factors[term]!;
    const start = unit.starts[at]!;
    for (let row = 0; row < height; row++) {
      const into = (start + row) * width;
      for (let k = row; k < height; k++) {
        const weight = factor[k * height + row]!;
        const from = start + k;
        for (let column = 0; column < size; column++)
          turned[into + column]! += weight * unit.effects[from * size + column]!;
        for (let column = 0; column < fixedEffects; column++) {
          turned[into + size + column]! += weight * unit.fixed[from * fixedEffects + column]!;
        }
      }
    }
  });
  const lower = unitFactor(unit, turned, width, terms, factors);
  for (let row = 0; row < size; row++) {
    for (let k = 0; k < row; k++) {
      const weight = lower[row * size + k]!;
      if (weight === 0) continue;
      for (let column = 0; column < width; column++)
        turned[row * width + column]! -= weight * turned[k * width + column]!;
    }
    const pivot = lower[row * size + row]!;
    for (let column = 0; column < width; column++) turned[row * width + column]! /= pivot;
  }
  const effects = Float64Array.from(unit.effects);
  const fixed = Float64Array.from(unit.fixed);
  for (let k = 0; k < size; k++) {
    for (let row = 0; row < size; row++) {
      const weight = turned[k * width + row]!;
      if (weight === 0) continue;
      for (let column = 0; column < size; column++)
        effects[row * size + column]! -= weight * turned[k * width + column]!;
      for (let column = 0; column < fixedEffects; column++) {
        fixed[row * fixedEffects + column]! -= weight * turned[k * width + size + column]!;
      }
    }
  }
  return { effects, fixed };
}

/** Cholesky factor of the identity plus the products between two factors. */
function unitFactor(
  { size, terms: levelTerms, starts }: UnitProducts,
  turned: Float64Array,
  width: number,
  terms: DevianceProblem['terms'],
  factors: readonly Float64Array[],
): Float64Array {
  const matrix = new Float64Array(size * size);
  levelTerms.forEach((term, at) => {
    const height = terms[term]!.size;
    const start = starts[at]!;
    for (let column = 0; column < height; column++) {
      for (let k = column; k < height; k++) {
        const weight = factors[term]![k * height + column]!;
        for (let row = start + column; row < size; row++) {
          matrix[row * size + start + column]! += weight * turned[row * width + start + k]!;
        }
      }
      matrix[(start + column) * (size + 1)]! += 1;
    }
  });
  for (let row = 0; row < size; row++) {
    for (let column = 0; column <= row; column++) {
      let sum = matrix[row * size + column]!;
      for (let k = 0; k < column; k++) sum -= matrix[row * size + k]! * matrix[column * size + k]!;
      matrix[row * size + column] = row === column ? Math.sqrt(sum) : sum / matrix[column * size + column]!;
    }
  }
  return matrix;
}
