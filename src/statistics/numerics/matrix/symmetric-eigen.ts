/** Eigenvalues in no particular order, and the eigenvectors as the columns of a row-major square matrix. */
export interface Eigen {
  readonly values: Float64Array;
  readonly vectors: Float64Array;
}

const sweeps = 60;

/**
 * Eigenvalues and eigenvectors of a symmetric matrix by Jacobi's rotations: accurate, and quick enough for tens of
 * rows. Golub and Van Loan, Matrix Computations (4th ed. 2013), section 8.5.
 *
 * @param matrix row-major, `size` by `size`; both triangles are read
 * @example symmetricEigen(Float64Array.of(2, 1, 1, 2), 2).values // 1 and 3
 */
export function symmetricEigen(matrix: Float64Array, size: number): Eigen {
  const values = Float64Array.from(matrix);
  const vectors = new Float64Array(size * size);
  for (let k = 0; k < size; k++) vectors[k * size + k] = 1;
  for (let sweep = 0; sweep < sweeps && offDiagonal(values, size) > 0; sweep++) {
    for (let p = 0; p < size - 1; p++) for (let q = p + 1; q < size; q++) rotate(values, vectors, size, p, q);
  }
  return { values: Float64Array.from({ length: size }, (_, k) => values[k * size + k]!), vectors };
}

/** Largest entry off the diagonal that still matters beside the diagonal. */
function offDiagonal(values: Float64Array, size: number): number {
  let largest = 0;
  for (let p = 0; p < size - 1; p++) {
    for (let q = p + 1; q < size; q++) {
      const entry = Math.abs(values[p * size + q]!);
      const beside = Math.sqrt(Math.abs(values[p * size + p]! * values[q * size + q]!));
      if (entry > 1e-17 * beside) largest = Math.max(largest, entry);
    }
  }
  return largest;
}

function rotate(values: Float64Array, vectors: Float64Array, size: number, p: number, q: number): void {
  const between = values[p * size + q]!;
  if (between === 0) return;
  const slope = (values[q * size + q]! - values[p * size + p]!) / (2 * between);
  const tangent = (slope < 0 ? -1 : 1) / (Math.abs(slope) + Math.hypot(1, slope));
  const cosine = 1 / Math.hypot(1, tangent);
  const sine = tangent * cosine;
  // The diagonal moves by a small step, which rounds less than the product of the rotations.
  const step = tangent * between;
  const [first, second] = [values[p * size + p]! - step, values[q * size + q]! + step];
  for (let k = 0; k < size; k++) {
    const [left, right] = [values[k * size + p]!, values[k * size + q]!];
    values[k * size + p] = cosine * left - sine * right;
    values[k * size + q] = sine * left + cosine * right;
  }
  for (let k = 0; k < size; k++) {
    const [upper, lower] = [values[p * size + k]!, values[q * size + k]!];
    values[p * size + k] = cosine * upper - sine * lower;
    values[q * size + k] = sine * upper + cosine * lower;
    const [left, right] = [vectors[k * size + p]!, vectors[k * size + q]!];
    vectors[k * size + p] = cosine * left - sine * right;
    vectors[k * size + q] = sine * left + cosine * right;
  }
  values[p * size + p] = first;
  values[q * size + q] = second;
  values[p * size + q] = 0;
  values[q * size + p] = 0;
}
