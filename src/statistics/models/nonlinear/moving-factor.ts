import { type HouseholderFactor, householder } from '../linear/householder.js';
import type { Point } from './point.js';

/** QR of the moving parameters' derivatives, the residuals turned along as the last column. */
export function movingFactor({ derivatives, residuals }: Point, moving: readonly number[]): HouseholderFactor {
  const rows = residuals.length;
  const entries = new Float64Array(rows * (moving.length + 1));
  moving.forEach((parameter, column) => {
    entries.set(derivatives.subarray(parameter * rows, (parameter + 1) * rows), column * rows);
  });
  entries.set(residuals, moving.length * rows);
  return householder(entries, rows, moving.length);
}
