import type { Grouping } from './grouping.js';

/**
 * A random term in the form in which it is fitted. Its columns are turned into columns of mean square 1, at right
 * angles unless the covariance is diagonal, so that neither the unit nor the origin of a slope's covariate slows or
 * spoils the search.
 */
export interface ScaledTerm {
  readonly grouping: Grouping;
  /** Number of columns. */
  readonly size: number;
  readonly diagonal: boolean;
  /** Row-major, observations by columns. */
  readonly values: Float64Array;
  /** Lower triangular, row-major: effects on the original columns are this matrix times those on the scaled ones. */
  readonly unscale: Float64Array;
  /** The least part of a column that its neighbours do not explain. */
  readonly independence: number;
}

/**
 * Gram–Schmidt from the last column to the first, twice over for accuracy. That order makes the change of columns lower
 * triangular, so that a lower triangular factor of the covariance stays one.
 */
export function scaledTerm(grouping: Grouping, columns: readonly (readonly number[])[], diagonal: boolean): ScaledTerm {
  const size = columns.length;
  const rows = grouping.codes.length;
  const values = new Float64Array(rows * size);
  columns.forEach((column, at) => {
    for (let row = 0; row < rows; row++) values[row * size + at] = column[row]!;
  });
  const change = new Float64Array(size * size);
  let independence = 1;
  for (let column = size - 1; column >= 0; column--) {
    const before = Math.sqrt(product(values, size, column, column));
    for (let pass = 0; pass < 2 && !diagonal; pass++) {
      for (let other = column + 1; other < size; other++) {
        const share = product(values, size, column, other) / rows;
        change[other * size + column]! += share;
        for (let row = 0; row < rows; row++) values[row * size + column]! -= share * values[row * size + other]!;
      }
    }
    const length = Math.sqrt(product(values, size, column, column));
    independence = Math.min(independence, before > 0 ? length / before : 0);
    const scale = length / Math.sqrt(rows) || 1;
    change[column * size + column] = scale;
    for (let row = 0; row < rows; row++) values[row * size + column]! /= scale;
  }
  return { grouping, size, diagonal, values, unscale: lowerInverse(change, size), independence };
}

function product(values: Float64Array, size: number, one: number, other: number): number {
  let sum = 0;
  for (let at = 0; at < values.length; at += size) sum += values[at + one]! * values[at + other]!;
  return sum;
}

function lowerInverse(lower: Float64Array, size: number): Float64Array {
  const inverse = new Float64Array(size * size);
  for (let column = 0; column < size; column++) {
    for (let row = column; row < size; row++) {
      let sum = row === column ? 1 : 0;
      for (let k = column; k < row; k++) sum -= lower[row * size + k]! * inverse[k * size + column]!;
      inverse[row * size + column] = sum / lower[row * size + row]!;
    }
  }
  return inverse;
}
