import { extendedSolution, remainders } from './extended-solution.js';
import {
  type HouseholderFactor,
  householder,
  inverseTriangle,
  reflectBackward,
  reflectForward,
} from './householder.js';
import type { Solution } from './solved-columns.js';

export type { Solution } from './solved-columns.js';

/** A column that lies in the span of those before it, with the ones that it combines. */
export interface Dependence {
  readonly column: number;
  readonly on: readonly number[];
}

/**
 * Columns closer than this to the span of those before them cannot be distinguished from dependent ones: rounding in the factor is
 * about 1e-14 of a column's length for thousands of rows, and Filip, the hardest of the NIST sets, stands at 5e-10.
 */
const DEPENDENT_BELOW = 1e-12;

/** Doubles lose the logarithm of this many digits at most before the slower arithmetic takes over. */
const PLAIN_CONDITION_LIMIT = 1e3;

/**
 * @param scaled columns of the design and the response last, column by column, each of largest absolute value about 1
 */
export function solve(scaled: Float64Array, rows: number, columns: number): Solution | Dependence {
  const factor = householder(Float64Array.from(scaled), rows, columns);
  const dependent = factor.independence.findIndex((share) => share < DEPENDENT_BELOW);
  if (dependent >= 0) return dependence(factor, dependent);
  const inverse = inverseTriangle(factor);
  if (condition(factor, inverse) > PLAIN_CONDITION_LIMIT) return extendedSolution(scaled, rows, columns);
  return plainSolution(factor, inverse, scaled);
}

export function isDependence(answer: Solution | Dependence): answer is Dependence {
  return 'on' in answer;
}

function plainSolution(factor: HouseholderFactor, inverse: Float64Array, scaled: Float64Array): Solution {
  const { rows, columns, entries } = factor;
  const first = inverseTimes(inverse, entries.subarray(columns * rows), columns);
  const { correction, residuals } = refinement(factor, inverse, scaled, first);
  return {
    coefficients: first.map((coefficient, k) => coefficient + correction[k]!),
    inverseFactor: inverse,
    unscaledCovariance: crossProducts(inverse, columns),
    residuals,
    residualSumOfSquares: residuals.reduce((sum, residual) => sum + residual * residual, 0),
  };
}

/**
 * One step of iterative refinement: what the coefficients leave, computed in double-double, is fitted once more, and what
 * that leaves are the residuals. With the condition bounded by 1000 further steps change nothing in doubles.
 * Björck, Numerical Methods for Least Squares Problems (1996), section 2.9.2.
 */
function refinement(
  factor: HouseholderFactor,
  inverse: Float64Array,
  scaled: Float64Array,
  coefficients: Float64Array,
) {
  const { rows, columns } = factor;
  const start = { high: coefficients, low: new Float64Array(columns) };
  const residuals = remainders(scaled, start, rows, columns).high;
  reflectForward(factor, residuals);
  const correction = inverseTimes(inverse, residuals, columns);
  residuals.fill(0, 0, columns);
  reflectBackward(factor, residuals);
  return { correction, residuals };
}

function inverseTimes(inverse: Float64Array, vector: Float64Array, columns: number): Float64Array {
  const result = new Float64Array(columns);
  for (let i = 0; i < columns; i++) {
    for (let k = i; k < columns; k++) result[i]! += inverse[i * columns + k]! * vector[k]!;
  }
  return result;
}

function crossProducts(inverse: Float64Array, columns: number): Float64Array {
  const products = new Float64Array(columns * columns);
  for (let i = 0; i < columns; i++) {
    for (let j = i; j < columns; j++) {
      let sum = 0;
      for (let k = j; k < columns; k++) sum += inverse[i * columns + k]! * inverse[j * columns + k]!;
      products[i * columns + j] = sum;
      products[j * columns + i] = sum;
    }
  }
  return products;
}

/** Frobenius condition number of R after its columns are brought to length 1: an upper bound of the spectral one. */
function condition(factor: HouseholderFactor, inverse: Float64Array): number {
  const { rows, columns, entries, diagonal } = factor;
  let sum = 0;
  for (let column = 0; column < columns; column++) {
    let square = diagonal[column]! ** 2;
    for (let row = 0; row < column; row++) square += entries[column * rows + row]! ** 2;
    for (let k = column; k < columns; k++) sum += square * inverse[column * columns + k]! ** 2;
  }
  return Math.sqrt(sum * columns);
}

/** Which of the earlier columns make up a dependent one: back substitution in the leading triangle. */
function dependence(factor: HouseholderFactor, column: number): Dependence {
  const { rows, entries, diagonal } = factor;
  const weights = new Float64Array(column);
  for (let row = column - 1; row >= 0; row--) {
    let rest = entries[column * rows + row]!;
    for (let k = row + 1; k < column; k++) rest -= entries[k * rows + row]! * weights[k]!;
    weights[row] = rest / diagonal[row]!;
  }
  const largest = weights.reduce((size, weight) => Math.max(size, Math.abs(weight)), 0);
  // Columns that enter with less than this are rounding, and naming them would mislead.
  const on = [...weights.keys()].filter((index) => Math.abs(weights[index]!) > 1e-8 * largest);
  return { column, on };
}
