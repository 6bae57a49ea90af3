import { itemAt } from '../../plain/in-order.js';
import {
  covariate,
  designMatrix,
  intercept,
  isStatisticsError,
  leastSquares,
  type MeanComparison,
  paired,
} from '../../statistics/index.js';
import { checkCurve, type DryingCurve } from '../drying-curve.js';
import { DryingError } from '../drying-error.js';

/** Whether walls were at rest before their treatment. */
export interface SteadyState {
  /** Mean over walls of their straight-line change in 30 days, with walls as the units. */
  readonly trendPer30Days: Pick<MeanComparison<'paired'>, 'estimate' | 'interval' | 'pValue' | 'degreesOfFreedom'>;
  readonly walls: number;
}

const where = 'steadyBefore';

/**
 * Whether walls had come to rest before a date: the trend of each wall's readings, averaged over walls. Walls that drift were still filling or already drying, and would have moved on untreated.
 *
 * @param curves a wall's readings in the before window, at least four visits of each
 * @throws DryingError `too-few` for fewer than two walls or four visits; `not-drying` where nothing varies; those of the curve
 * @example
 * const times_d = [0, 30, 60, 90];
 * steadyBefore([[9.1, 9.3, 9.0, 9.2], [7.9, 8.1, 8.2, 8.0], [8.4, 8.3, 8.6, 8.4]].map((moisture) => ({ times_d, moisture }))).trendPer30Days.estimate // 0.02333
 */
export function steadyBefore(curves: readonly DryingCurve[], options: { readonly level?: number } = {}): SteadyState {
  const level = options.level ?? 0.95;
  if (curves.length < 2) throw new DryingError(where, 'too-few', `needs at least 2 walls, got ${curves.length}`);
  for (const curve of curves) checkCurve(where, curve, 4);
  try {
    const fits = curves.map(({ times_d, moisture }) =>
      leastSquares(
        designMatrix([
          intercept(),
          covariate(
            'time',
            times_d.map((time) => time / 30),
          ),
        ]),
        moisture,
      ),
    );
    const { estimate, interval, pValue, degreesOfFreedom } = paired(
      fits.map(({ coefficients }) => itemAt(coefficients, 1).estimate),
      { level },
    );
    return {
      trendPer30Days: { estimate, interval, pValue, degreesOfFreedom },
      walls: curves.length,
    };
  } catch (error) {
    if (!isStatisticsError(error)) throw error;
    throw new DryingError(where, 'not-drying', `needs walls whose readings vary: ${error.message}`);
  }
}
