import {
  addScaled,
  at,
  type DoubleDouble,
  type DoubleDoubles,
  dot,
  doubleDouble,
  doubleDoubles,
  negative,
  product,
  put,
  quotient,
  squareRoot,
  sum,
  toNumber,
} from './double-double.js';
import type { Solution } from './solved-columns.js';

/**
 * Least squares by the same Householder reflections in double-double arithmetic, about twenty times slower.
 *
 * Where columns nearly depend on one another, doubles lose as many digits as the condition number has; with 32 digits at
 * work the answer is right to the last digits that the data, as doubles, determine.
 */
export function extendedSolution(scaled: Float64Array, rows: number, columns: number): Solution {
  const entries: DoubleDoubles = {
    high: Float64Array.from(scaled),
    low: new Float64Array(scaled.length),
  };
  const diagonal = triangularise(entries, rows, columns);
  const inverse = inverseTriangle(entries, diagonal, rows, columns);
  const coefficients = doubleDoubles(columns);
  for (let row = 0; row < columns; row++) {
    put(coefficients, row, dot(inverse, row * columns, entries, columns * rows, columns));
  }
  const residuals = remainders(scaled, coefficients, rows, columns);
  return {
    coefficients: toNumbers(coefficients),
    inverseFactor: toNumbers(inverse),
    unscaledCovariance: crossProducts(inverse, columns),
    residuals: toNumbers(residuals),
    residualSumOfSquares: toNumber(dot(residuals, 0, residuals, 0, rows)),
  };
}

/** Overwrites the columns by R and Q'y; returns the diagonal of R. */
function triangularise(entries: DoubleDoubles, rows: number, columns: number): DoubleDouble[] {
  const diagonal: DoubleDouble[] = [];
  for (let pivot = 0; pivot < columns; pivot++) {
    const start = pivot * rows + pivot;
    const length = rows - pivot;
    const head = at(entries, start);
    const size = squareRoot(dot(entries, start, entries, start, length));
    const reflected = head.high > 0 ? negative(size) : size;
    put(entries, start, sum(head, negative(reflected)));
    const divisor = product(reflected, at(entries, start));
    for (let column = pivot + 1; column <= columns; column++) {
      const target = column * rows + pivot;
      const scale = quotient(dot(entries, start, entries, target, length), divisor);
      addScaled(entries, target, scale, entries, start, length);
    }
    diagonal.push(reflected);
  }
  return diagonal;
}

function inverseTriangle(
  entries: DoubleDoubles,
  diagonal: readonly DoubleDouble[],
  rows: number,
  columns: number,
): DoubleDoubles {
  const inverse = doubleDoubles(columns * columns);
  for (let column = 0; column < columns; column++) {
    put(inverse, column * columns + column, quotient(doubleDouble(1), diagonal[column]!));
    for (let row = column - 1; row >= 0; row--) {
      let total = doubleDouble(0);
      for (let k = row + 1; k <= column; k++) {
        total = sum(total, product(at(entries, k * rows + row), at(inverse, k * columns + column)));
      }
      put(inverse, row * columns + column, quotient(negative(total), diagonal[row]!));
    }
  }
  return inverse;
}

/** Response less fitted values in double-double, from the scaled columns as they were before any reflection. */
export function remainders(
  scaled: Float64Array,
  coefficients: DoubleDoubles,
  rows: number,
  columns: number,
): DoubleDoubles {
  const design: DoubleDoubles = {
    high: scaled,
    low: new Float64Array(scaled.length),
  };
  const residuals = doubleDoubles(rows);
  residuals.high.set(scaled.subarray(columns * rows));
  for (let column = 0; column < columns; column++) {
    addScaled(residuals, 0, negative(at(coefficients, column)), design, column * rows, rows);
  }
  return residuals;
}

function crossProducts(inverse: DoubleDoubles, columns: number): Float64Array {
  const result = new Float64Array(columns * columns);
  for (let i = 0; i < columns; i++) {
    for (let j = 0; j < columns; j++) {
      result[i * columns + j] = toNumber(dot(inverse, i * columns, inverse, j * columns, columns));
    }
  }
  return result;
}

function toNumbers(values: DoubleDoubles): Float64Array {
  return values.high.map((high, index) => high + values.low[index]!);
}
