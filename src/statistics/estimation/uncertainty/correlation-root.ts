import { StatisticsError } from '../../statistics-error.js';

/** Correlations written with a few decimals may miss a perfect dependence by this much. */
const slack = 1e-9;

/**
 * The lower triangle L with L·Lᵀ equal to a correlation matrix (Cholesky), also where some inputs depend perfectly on
 * others.
 *
 * @throws StatisticsError `out-of-range` where no set of inputs can have these correlations together
 */
export function correlationRoot(where: string, matrix: readonly Float64Array[]): Float64Array[] {
  const root = matrix.map(() => new Float64Array(matrix.length));
  for (const [column, ofColumn] of root.entries()) {
    const left = remainder(matrix, root, column, column);
    if (left < -slack) throw impossible(where);
    const diagonal = left > slack ? Math.sqrt(left) : 0;
    ofColumn[column] = diagonal;
    for (let row = column + 1; row < root.length; row++) {
      const off = remainder(matrix, root, row, column);
      if (diagonal === 0 && Math.abs(off) > Math.sqrt(slack)) throw impossible(where);
      (root[row] as Float64Array)[column] = diagonal === 0 ? 0 : off / diagonal;
    }
  }
  return root;
}

function remainder(
  matrix: readonly Float64Array[],
  root: readonly Float64Array[],
  row: number,
  column: number,
): number {
  const [ofRow, ofColumn] = [root[row] as Float64Array, root[column] as Float64Array];
  let left = (matrix[row] as Float64Array)[column] as number;
  for (let k = 0; k < column; k++) left -= (ofRow[k] as number) * (ofColumn[k] as number);
  return left;
}

function impossible(where: string): StatisticsError {
  return new StatisticsError(
    where,
    'out-of-range',
    'needs correlations that can hold together, and these cannot; compute them from one joint set of observations',
  );
}
