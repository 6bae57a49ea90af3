import { isDependence, solve } from '../linear/solution.js';
import { StatisticsError } from '../statistics-error.js';
import type { Curve } from './curve.js';
import type { LeastSum } from './least-sum.js';
import { columnNorm } from './point.js';

/**
 * Standard errors of the moving parameters, from the model as straight as its derivatives make it at the estimates.
 *
 * @throws StatisticsError `collinear` where a parameter changes nothing, or nothing that others do not
 */
export function standardErrors(
  where: string,
  curve: Curve,
  { point, moving }: LeastSum,
  residualVariance: number,
): number[] {
  const rows = curve.response.length;
  const norms = moving.map((j) => columnNorm(point, j));
  const idle = norms.indexOf(0);
  if (idle >= 0) throw withoutInfluence(where, curve, point.values, moving[idle]!);
  const entries = new Float64Array(rows * (moving.length + 1));
  moving.forEach((j, column) => {
    for (let row = 0; row < rows; row++) {
      entries[column * rows + row] = point.derivatives[j * rows + row]! / norms[column]!;
    }
  });
  entries.set(point.residuals, moving.length * rows);
  const answer = solve(entries, rows, moving.length);
  if (isDependence(answer)) {
    const name = (column: number) => `"${curve.names[moving[column]!]}"`;
    const others = answer.on.map(name).join(', ');
    const detail = `needs parameters that do not repeat one another: at the estimates ${name(answer.column)} does what ${others} do; remove one or write a known value into the model`;
    throw new StatisticsError(where, 'collinear', detail);
  }
  return moving.map((_, k) => {
    const variance = answer.unscaledCovariance[k * moving.length + k]! * residualVariance;
    return Math.sqrt(variance) / norms[k]!;
  });
}

function withoutInfluence(where: string, { names }: Curve, values: Float64Array, j: number): StatisticsError {
  const detail = `needs parameters that change the model: at the estimates "${names[j]}" = ${values[j]!.toPrecision(4)} does not; start elsewhere, set bounds, or remove it`;
  return new StatisticsError(where, 'collinear', detail);
}
