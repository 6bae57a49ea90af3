import { StatisticsError } from '../../statistics-error.js';
import { isDependence, solve } from '../linear/solution.js';
import type { LeastSum } from './least-sum.js';
import { columnNorm } from './point.js';

/** Standard errors of the moving parameters, from the model as straight as its derivatives make it at the estimates. */
export function standardErrors(where: string, { point, moving }: LeastSum, residualVariance: number): number[] {
  const rows = point.residuals.length;
  const count = moving.length;
  const norms = moving.map((parameter) => columnNorm(point, parameter));
  const entries = new Float64Array(rows * (count + 1));
  moving.forEach((parameter, column) => {
    for (let row = 0; row < rows; row++) {
      entries[column * rows + row] = point.derivatives[parameter * rows + row]! / norms[column]!;
    }
  });
  const answer = solve(entries, rows, count);
  if (isDependence(answer)) throw new StatisticsError(where, 'collinear', 'needs parameters that can be distinguished');
  return norms.map((norm, k) => Math.sqrt(answer.unscaledCovariance[k * count + k]! * residualVariance) / norm);
}
