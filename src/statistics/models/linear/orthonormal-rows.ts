import type { LeastSquaresFit } from './least-squares.js';

/**
 * The design turned so that its columns are orthonormal, row-major: one row of `rank` numbers for every observation.
 * A row's squared length is the observation's leverage.
 */
export function orthonormalRows(fit: LeastSquaresFit): Float64Array {
  const { rank, inverseFactor } = fit;
  const columns = fit.design.columns.map(({ values }) => values);
  const rows = fit.residuals.length;
  const turned = new Float64Array(rows * rank);
  for (let row = 0; row < rows; row++) {
    for (let k = 0; k < rank; k++) {
      const entry = columns[k]![row]!;
      if (entry === 0) continue;
      for (let j = k; j < rank; j++) turned[row * rank + j]! += entry * inverseFactor[k * rank + j]!;
    }
  }
  return turned;
}
