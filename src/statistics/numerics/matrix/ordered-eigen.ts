import { symmetricEigen } from './symmetric-eigen.js';

/** Eigenvalues, largest first, and the unit eigenvector of each: row k of `vectors` belongs to `values[k]`. */
export interface OrderedEigen {
  readonly values: Float64Array;
  /** Row-major, `size` by `size`, with orthonormal rows. */
  readonly vectors: Float64Array;
}

/**
 * Eigen-decomposition of a small symmetric matrix, the largest eigenvalue first.
 *
 * @param matrix row-major, `size` by `size`, of finite numbers; left as it is
 * @example orderedEigen(Float64Array.of(2, 1, 1, 2), 2).values // 3 and 1
 */
export function orderedEigen(matrix: Float64Array, size: number): OrderedEigen {
  const { values, vectors } = symmetricEigen(matrix, size);
  const order = Array.from(values.keys()).sort((one, other) => values[other]! - values[one]!);
  const rows = new Float64Array(size * size);
  order.forEach((column, row) => {
    for (let k = 0; k < size; k++) rows[row * size + k] = vectors[k * size + column]!;
  });
  return { values: Float64Array.from(order, (column) => values[column]!), vectors: rows };
}
