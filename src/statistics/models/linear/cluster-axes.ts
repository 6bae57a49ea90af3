import { orderedEigen } from '../../numerics/matrix/ordered-eigen.js';
import { dot } from './dot.js';

/** A direction in which a cluster moves the fit. */
export interface ClusterAxis {
  /** How much of the fit in this direction the cluster makes alone: an eigenvalue of its block of the hat matrix, 0 to 1. */
  readonly share: number;
  /** Unit vector in the orthonormal basis of the design. */
  readonly direction: Float64Array;
}

/** Shares below this change nothing in doubles. */
const NEGLIGIBLE_SHARE = 1e-15;

/**
 * The eigenvectors of a cluster's block of the hat matrix that are not null, found in the smaller of its two spaces: as
 * many dimensions as coefficients, or as observations. The block itself, observations by observations, is made only where
 * it is the smaller. Observations alike in all columns, such as the stations of one wall, enter once, weighted by the root
 * of their number: the axes are the same and the block is as small as the number of different rows.
 *
 * @param turned rows of the design in the orthonormal basis, row-major
 * @param members indices of the cluster's observations
 */
export function clusterAxes(turned: Float64Array, rank: number, members: readonly number[]): ClusterAxis[] {
  const rows = distinctRows(members.map((member) => turned.subarray(member * rank, (member + 1) * rank)));
  return rows.length < rank ? axesFromObservations(rows, rank) : axesFromCoefficients(rows, rank);
}

function distinctRows(rows: readonly Float64Array[]): readonly Float64Array[] {
  const counted: { readonly row: Float64Array; count: number }[] = [];
  for (const row of rows) {
    const alike = counted.find((known) => known.row.every((entry, j) => entry === row[j]));
    if (alike === undefined) counted.push({ row, count: 1 });
    else alike.count += 1;
  }
  return counted.map(({ row, count }) => (count === 1 ? row : row.map((entry) => entry * Math.sqrt(count))));
}

function axesFromCoefficients(rows: readonly Float64Array[], rank: number): ClusterAxis[] {
  const products = new Float64Array(rank * rank);
  for (const row of rows) {
    for (let i = 0; i < rank; i++) {
      const entry = row[i]!;
      for (let j = i; j < rank; j++) products[i * rank + j]! += entry * row[j]!;
    }
  }
  for (let i = 0; i < rank; i++) for (let j = 0; j < i; j++) products[i * rank + j] = products[j * rank + i]!;
  const { values, vectors } = orderedEigen(products, rank);
  return [...values.keys()]
    .filter((k) => values[k]! > NEGLIGIBLE_SHARE)
    .map((k) => ({ share: values[k]!, direction: vectors.subarray(k * rank, (k + 1) * rank) }));
}

function axesFromObservations(rows: readonly Float64Array[], rank: number): ClusterAxis[] {
  const size = rows.length;
  const products = new Float64Array(size * size);
  rows.forEach((a, i) => {
    rows.forEach((b, j) => {
      products[i * size + j] = dot(a, b);
    });
  });
  const { values, vectors } = orderedEigen(products, size);
  return [...values.keys()]
    .filter((k) => values[k]! > NEGLIGIBLE_SHARE)
    .map((k) => ({
      share: values[k]!,
      direction: combined(rows, vectors.subarray(k * size), Math.sqrt(values[k]!), rank),
    }));
}

function combined(rows: readonly Float64Array[], weights: Float64Array, length: number, rank: number): Float64Array {
  const direction = new Float64Array(rank);
  rows.forEach((row, i) => {
    const weight = weights[i]! / length;
    for (let j = 0; j < rank; j++) direction[j]! += weight * row[j]!;
  });
  return direction;
}
