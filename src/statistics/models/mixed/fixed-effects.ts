import type { BlockLayout } from './block-layout.js';

/**
 * Upper triangular, row-major: its product with its own transpose, times the residual variance, is the covariance of
 * the coefficients. Taken from the factor of the last trial.
 */
export function coefficientFactor(factor: Float64Array, layout: BlockLayout, turn: Float64Array): Float64Array {
  const size = layout.tail - 1;
  const inverse = transposedInverse(factor, layout, size);
  const product = new Float64Array(size * size);
  for (let row = 0; row < size; row++) {
    for (let column = row; column < size; column++) {
      let sum = 0;
      for (let k = row; k <= column; k++) sum += turn[row * size + k]! * inverse[k * size + column]!;
      product[row * size + column] = sum;
    }
  }
  return product;
}

/** Inverse of the transpose of the fixed effects' lower triangle. */
function transposedInverse(factor: Float64Array, layout: BlockLayout, size: number): Float64Array {
  const lower = (row: number, column: number) =>
    factor[layout.denseStart + (layout.denseEffects + row) * layout.denseSize + layout.denseEffects + column]!;
  const inverse = new Float64Array(size * size);
  for (let row = 0; row < size; row++) {
    inverse[row * size + row] = 1 / lower(row, row);
    for (let column = row + 1; column < size; column++) {
      let sum = 0;
      for (let k = row; k < column; k++) sum += lower(column, k) * inverse[row * size + k]!;
      inverse[row * size + column] = -sum / lower(column, column);
    }
  }
  return inverse;
}

/** The product of a triangle with its own transpose. */
export function squareOf(triangle: Float64Array, size: number): Float64Array {
  const square = new Float64Array(size * size);
  for (let row = 0; row < size; row++) {
    for (let column = 0; column <= row; column++) {
      let sum = 0;
      for (let k = row; k < size; k++) sum += triangle[row * size + k]! * triangle[column * size + k]!;
      square[row * size + column] = sum;
      square[column * size + row] = sum;
    }
  }
  return square;
}
