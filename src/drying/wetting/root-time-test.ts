import {
  contrast,
  covariate,
  designMatrix,
  type Interval,
  intercept,
  isStatisticsError,
  leastSquares,
} from '../../statistics/index.js';
import { DryingError } from '../drying-error.js';
import { checkArrivals } from './check-arrivals.js';
import type { DayOfArrival } from './rising-front.js';

/** Whether a front keeps to the root of time. */
export interface RootTimeTest {
  /** Of the squared heights squared, days/m⁴: above 0 the front falls behind the root of time, below 0 it runs ahead. */
  readonly curvature: number;
  readonly interval: Interval;
  readonly degreesOfFreedom: number;
  /** Two-sided, by Student's t. */
  readonly pValue: number;
}

const where = 'rootTimeTest';

/**
 * Tests the straight line of arrival times on squared heights, which is rise by the root of time, against a bend: Student's t of a
 * quadratic term. Evaporation, gravity and a drier material higher up bend it upward.
 *
 * @throws DryingError `too-few` below four heights or where the arrivals lie on such a curve exactly; `out-of-range`
 * @example
 * const arrivals = [[100, 1.29], [200, 2.16], [300, 3.75], [400, 6.29], [500, 10.2], [600, 17.0]].map(([height_mm, time_d]) => ({ height_mm, time_d }));
 * rootTimeTest(arrivals).pValue // 0.0019
 */
export function rootTimeTest(
  arrivals: readonly DayOfArrival[],
  options: { readonly level?: number } = {},
): RootTimeTest {
  const { level = 0.95 } = options;
  checkArrivals(where, arrivals, 4);
  const squares = arrivals.map(({ height_mm }) => (height_mm / 1000) ** 2);
  const squared = squares.map((square) => square ** 2);
  try {
    const fit = leastSquares(
      designMatrix([intercept(), covariate('squared height', squares), covariate('bend', squared)]),
      arrivals.map(({ time_d }) => time_d),
    );
    const { estimate, interval, pValue } = contrast(fit, { bend: 1 }, { level });
    return { curvature: estimate, interval, degreesOfFreedom: fit.degreesOfFreedom, pValue };
  } catch (error) {
    if (!isStatisticsError(error)) throw error;
    throw new DryingError(where, 'too-few', `needs arrivals that scatter about the curve: ${error.message}`);
  }
}
