import type { LeastSquaresFit } from '../../../../src/statistics/index.js';
import { orderedEigen } from '../../../../src/statistics/numerics/matrix/ordered-eigen.js';

/**
 * CR2 and its degrees of freedom by the formulas as printed (Pustejovsky and Tipton 2018, equations 6, 8 and 12) with
 * matrices of observations by observations, for comparison with the fast route.
 */
export function denseClusterRobust(fit: LeastSquaresFit, clusters: readonly string[], weights: readonly number[]) {
  const rows = clusters.length;
  const p = fit.rank;
  const x = (row: number, column: number) => fit.design.columns[column]!.values[row]!;
  const m = (i: number, j: number) => fit.unscaledCovariance[i * p + j]!;
  const hat = grid(rows, rows, (i, j) => sum(p, (a) => sum(p, (b) => x(i, a) * m(a, b) * x(j, b))));
  const rest = grid(rows, rows, (i, j) => (i === j ? 1 : 0) - hat[i]![j]!);
  const names = [...new Set(clusters)];
  const vectors = names.map((name) => {
    const members = [...clusters.keys()].filter((row) => clusters[row] === name);
    const root = inverseRoot(members.map((i) => members.map((j) => rest[i]![j]!)));
    const slope = members.map((i) => sum(p, (a) => sum(p, (b) => x(i, a) * m(a, b) * weights[b]!)));
    const adjusted = members.map((_, i) => sum(members.length, (j) => root[i]![j]! * slope[j]!));
    return Array.from({ length: rows }, (_, row) =>
      sum(members.length, (i) => rest[row]![members[i]!]! * adjusted[i]!),
    );
  });
  const response = fit.fitted.map((value, row) => value + fit.residuals[row]!);
  const products = grid(names.length, names.length, (g, h) => sum(rows, (i) => vectors[g]![i]! * vectors[h]![i]!));
  const trace = sum(names.length, (g) => products[g]![g]!);
  const squares = sum(names.length, (g) => sum(names.length, (h) => products[g]![h]! ** 2));
  const variance = sum(names.length, (g) => sum(rows, (i) => vectors[g]![i]! * response[i]!) ** 2);
  return { standardError: Math.sqrt(variance), degreesOfFreedom: trace ** 2 / squares };
}

function inverseRoot(matrix: readonly (readonly number[])[]): number[][] {
  const size = matrix.length;
  const { values, vectors } = orderedEigen(Float64Array.from(matrix.flat()), size);
  return grid(size, size, (i, j) =>
    sum(size, (k) =>
      values[k]! > 1e-10 ? (vectors[k * size + i]! * vectors[k * size + j]!) / Math.sqrt(values[k]!) : 0,
    ),
  );
}

function grid(rows: number, columns: number, entry: (i: number, j: number) => number): number[][] {
  return Array.from({ length: rows }, (_, i) => Array.from({ length: columns }, (_, j) => entry(i, j)));
}

function sum(length: number, term: (index: number) => number): number {
  let total = 0;
  for (let i = 0; i < length; i++) total += term(i);
  return total;
}
