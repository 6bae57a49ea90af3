import {
  covariate,
  designMatrix,
  fisherF,
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
  /** Scatter about the walls' lines in the second half of the visits over that in the first, and its two-sided F test. */
  readonly scatter: { readonly ratioOfVariances: number; readonly pValue: number };
  readonly walls: number;
}

const where = 'steadyBefore';

/**
 * Whether walls had come to rest before a date: the trend of each wall's readings, averaged over walls, and whether they
 * scattered more as time went on. Walls that drift were still filling or already drying, and would have moved on untreated.
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
      fits.map(({ coefficients }) => coefficients[1]!.estimate),
      { level },
    );
    return {
      trendPer30Days: { estimate, interval, pValue, degreesOfFreedom },
      scatter: scatterOf(fits.map(({ residuals }) => residuals)),
      walls: curves.length,
    };
  } catch (error) {
    if (!isStatisticsError(error)) throw error;
    throw new DryingError(where, 'not-drying', `needs walls whose readings vary: ${error.message}`);
  }
}

/** Two of a wall's degrees of freedom go to its line: one is taken from each half. */
function scatterOf(residuals: readonly (readonly number[])[]): SteadyState['scatter'] {
  const half = (late: boolean) => {
    const parts = residuals.map((own) => own.filter((_, k) => (late ? k >= own.length / 2 : k < own.length / 2)));
    const squares = parts.flat().reduce((sum, value) => sum + value * value, 0);
    return { squares, freedom: parts.reduce((sum, { length }) => sum + length - 1, 0) };
  };
  const [first, second] = [half(false), half(true)];
  if (!(first.squares > 0 && second.squares > 0))
    throw new DryingError(where, 'not-drying', 'needs readings that scatter in both halves');
  const ratioOfVariances = second.squares / second.freedom / (first.squares / first.freedom);
  const tail = fisherF(second.freedom, first.freedom).upperTail(ratioOfVariances);
  return { ratioOfVariances, pValue: Math.min(1, 2 * Math.min(tail, 1 - tail)) };
}
