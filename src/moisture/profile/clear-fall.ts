import { studentT } from '../../statistics/index.js';
import type { MoistureAtPoint } from './moisture-at-point.js';

/** A fall that pure chance gives more often than this is none. */
const chanceOfFall = 0.05;

/**
 * Whether moisture falls with height beyond what scatter gives: Student's t of the straight line's slope, one-sided at 5 %.
 *
 * It asks for a fall before any curve is fitted, and not how well the curve fits: a test by the curve's own residuals lets
 * through just those walls whose residuals happen to be small, and the intervals of their fronts come out too short.
 */
export function fallsClearly(points: readonly MoistureAtPoint[]): boolean {
  const [height, value] = [meanOf(points, 'height_mm'), meanOf(points, 'value_pct')];
  let [ofHeights, ofValues, together] = [0, 0, 0];
  for (const { height_mm, value_pct } of points) {
    ofHeights += (height_mm - height) ** 2;
    ofValues += (value_pct - value) ** 2;
    together += (height_mm - height) * (value_pct - value);
  }
  const degreesOfFreedom = points.length - 2;
  const left = Math.max(0, ofValues - together ** 2 / ofHeights) / degreesOfFreedom;
  const slope = together / ofHeights;
  if (!(slope < 0)) return false;
  return left === 0 || studentT(degreesOfFreedom).upperTail(-slope / Math.sqrt(left / ofHeights)) < chanceOfFall;
}

function meanOf(points: readonly MoistureAtPoint[], key: 'height_mm' | 'value_pct'): number {
  return points.reduce((sum, point) => sum + point[key], 0) / points.length;
}
