// Square matrices, row-major.

/** Inverse of a positive definite matrix by Gauss–Jordan elimination. */
export function inverse(matrix: Float64Array, size: number): Float64Array {
  const result = Float64Array.from(matrix);
  for (let pivot = 0; pivot < size; pivot++) {
    const scale = 1 / result[pivot * (size + 1)]!;
    for (let column = 0; column < size; column++) if (column !== pivot) result[pivot * size + column]! *= scale;
    for (let row = 0; row < size; row++) {
      if (row === pivot) continue;
      const weight = result[row * size + pivot]!;
      for (let column = 0; column < size; column++) {
        if (column !== pivot) result[row * size + column]! -= weight * result[pivot * size + column]!;
      }
      result[row * size + pivot] = -weight * scale;
    }
    result[pivot * (size + 1)] = scale;
  }
  return result;
}

/** The product of two. */
export function times(one: Float64Array, other: Float64Array, size: number): Float64Array {
  const product = new Float64Array(size * size);
  for (let row = 0; row < size; row++) {
    for (let k = 0; k < size; k++) {
      const weight = one[row * size + k]!;
      for (let column = 0; column < size; column++) product[row * size + column]! += weight * other[k * size + column]!;
    }
  }
  return product;
}

export function trace(matrix: Float64Array, size: number): number {
  let sum = 0;
  for (let k = 0; k < size; k++) sum += matrix[k * (size + 1)]!;
  return sum;
}

/** Trace of the product of two, without the product. */
export function traceOfProduct(one: Float64Array, other: Float64Array, size: number): number {
  let sum = 0;
  for (let row = 0; row < size; row++) {
    for (let column = 0; column < size; column++) sum += one[row * size + column]! * other[column * size + row]!;
  }
  return sum;
}
