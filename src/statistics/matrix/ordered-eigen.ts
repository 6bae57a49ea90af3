/** Eigenvalues, largest first, and the unit eigenvector of each: row k of `vectors` belongs to `values[k]`. */
export interface OrderedEigen {
  readonly values: Float64Array;
  /** Row-major, `size` by `size`, with orthonormal rows. */
  readonly vectors: Float64Array;
}

/** Convergence is quadratic: ten sweeps are many. */
const MOST_SWEEPS = 50;

/**
 * Eigen-decomposition of a small symmetric matrix by cyclic Jacobi rotations, right to a few units of rounding of the
 * largest eigenvalue. Golub and Van Loan, Matrix Computations (4th ed. 2013), section 8.5.
 *
 * @param matrix row-major, `size` by `size`, of finite numbers; left as it is
 * @example orderedEigen(Float64Array.of(2, 1, 1, 2), 2).values // 3 and 1
 */
export function orderedEigen(matrix: Float64Array, size: number): OrderedEigen {
  const work = Float64Array.from(matrix);
  const vectors = new Float64Array(size * size);
  for (let i = 0; i < size; i++) vectors[i * size + i] = 1;
  const length = Math.sqrt(matrix.reduce((sum, entry) => sum + entry * entry, 0));
  const negligible = (Number.EPSILON * length) / (4 * size);
  let sweeps = 0;
  while (sweep(work, vectors, size, negligible) && sweeps < MOST_SWEEPS) sweeps++;
  return largestFirst(work, vectors, size);
}

/** Rotates every entry above the diagonal away once; says whether any was worth it. */
function sweep(work: Float64Array, vectors: Float64Array, size: number, negligible: number): boolean {
  let rotated = false;
  for (let p = 0; p < size - 1; p++) {
    for (let q = p + 1; q < size; q++) {
      if (Math.abs(work[p * size + q]!) <= negligible) continue;
      rotate(work, vectors, size, p, q);
      rotated = true;
    }
  }
  return rotated;
}

function rotate(work: Float64Array, vectors: Float64Array, size: number, p: number, q: number): void {
  const off = work[p * size + q]!;
  const half = (work[q * size + q]! - work[p * size + p]!) / (2 * off);
  const tangent = Math.sign(half || 1) / (Math.abs(half) + Math.hypot(1, half));
  const cosine = 1 / Math.sqrt(1 + tangent * tangent);
  const sine = tangent * cosine;
  work[p * size + p]! -= tangent * off;
  work[q * size + q]! += tangent * off;
  work[p * size + q] = 0;
  work[q * size + p] = 0;
  for (let k = 0; k < size; k++) {
    const vp = vectors[p * size + k]!;
    const vq = vectors[q * size + k]!;
    vectors[p * size + k] = cosine * vp - sine * vq;
    vectors[q * size + k] = sine * vp + cosine * vq;
    if (k === p || k === q) continue;
    const kp = work[p * size + k]!;
    const kq = work[q * size + k]!;
    const turnedP = cosine * kp - sine * kq;
    const turnedQ = sine * kp + cosine * kq;
    work[p * size + k] = turnedP;
    work[k * size + p] = turnedP;
    work[q * size + k] = turnedQ;
    work[k * size + q] = turnedQ;
  }
}

function largestFirst(work: Float64Array, vectors: Float64Array, size: number): OrderedEigen {
  const order = [...new Array<number>(size).keys()].sort((a, b) => work[b * size + b]! - work[a * size + a]!);
  const values = Float64Array.from(order, (index) => work[index * size + index]!);
  const rows = new Float64Array(size * size);
  order.forEach((from, to) => {
    rows.set(vectors.subarray(from * size, (from + 1) * size), to * size);
  });
  return { values, vectors: rows };
}
