import { itemAt } from '../../plain/in-order.js';
import { type IsotonicFit, isotonicRegression } from '../../statistics/index.js';
import { MoistureError } from '../moisture-error.js';
import { checkPoints, type MoistureAtPoint } from './moisture-at-point.js';

/** Where a profile that never rises passes half way between its wettest and its driest level. */
export interface DampFrontByOrder {
  readonly method: 'order';
  readonly height_mm: number;
  /** The neighbouring measured heights between which the front lies: where, not how surely. */
  readonly bracket: { readonly lower_mm: number; readonly upper_mm: number };
  readonly below_pct: number;
  readonly above_pct: number;
  readonly heights: number;
  readonly fit: IsotonicFit;
}

/**
 * Height of the damp front with no assumption but that moisture does not rise with height: least squares among such curves,
 * then the crossing of the half-way level, straight between measured heights. The bracket comes from the spacing of the
 * heights alone; errors of the readings can move the front out of it.
 *
 * @throws MoistureError `too-few` below three heights, `reversed` where moisture rises with height at least as well as it falls, `no-front` where the fit is
 *   level, `not-finite`
 * @example
 * const heights = [100, 300, 500, 700, 900, 1100, 1300];
 * const points = [14.8, 14.6, 13.1, 8.9, 5.2, 3.4, 3.1].map((value_pct, at) => ({ height_mm: heights[at], value_pct }));
 * dampFrontByOrder(points).bracket // { lower_mm: 500, upper_mm: 700 }
 */
export function dampFrontByOrder(points: readonly MoistureAtPoint[]): DampFrontByOrder {
  const where = 'dampFrontByOrder';
  checkPoints(where, points, 3);
  const data = { x: points.map(({ height_mm }) => height_mm), response: points.map(({ value_pct }) => value_pct) };
  const fit = isotonicRegression(data, 'decreasing');
  const [below, above] = [itemAt(fit.fitted, 0), itemAt(fit.fitted, -1)];
  const rising = isotonicRegression(data, 'increasing');
  if (rising.levels.length > 1 && rising.residualSumOfSquares <= fit.residualSumOfSquares)
    throw new MoistureError(where, 'reversed', 'needs moisture that falls with height, got one that rises instead');
  if (!(below > above))
    throw new MoistureError(where, 'no-front', 'needs a fall with height inside the measured range, got none');
  const half = (below + above) / 2;
  const next = fit.fitted.findIndex((value) => value <= half);
  const [lower, upper] = [itemAt(fit.x, next - 1), itemAt(fit.x, next)];
  const [high, low] = [itemAt(fit.fitted, next - 1), itemAt(fit.fitted, next)];
  return {
    method: 'order',
    height_mm: lower + ((high - half) / (high - low)) * (upper - lower),
    bracket: { lower_mm: lower, upper_mm: upper },
    below_pct: below,
    above_pct: above,
    heights: fit.x.length,
    fit,
  };
}
