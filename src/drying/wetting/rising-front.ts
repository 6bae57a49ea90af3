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
import type { DayOfArrival } from './day-of-arrival.js';

export type { DayOfArrival } from './day-of-arrival.js';

export interface RisingFront {
  /** When the water set out from height 0, on the arrivals' clock. */
  readonly start_d: number;
  readonly startInterval: Interval;
  /** Height per root of the time since then, mm/min^0.5. */
  readonly speed: number;
  readonly interval: Interval;
  readonly arrivals: number;
}

const where = 'risingFront';
const minutesInDay = 1440;

/**
 * The front's speed where nobody wrote down when the water came: time = start + (height / speed)², a straight line of the times on
 * the squared heights, for heights are known and arrivals are not quite. Its limits are those of the line, turned over.
 *
 * @throws DryingError `too-few` below three arrivals or where they all stand at one height, `out-of-range`, `out-of-order` where
 *   the times do not plainly grow with the height
 * @example
 * const arrivals = [[100, 10.4], [200, 11.5], [300, 13.2], [400, 15.6]].map(([height_mm, time_d]) => ({ height_mm, time_d }));
 * risingFront(arrivals).start_d // 10.08
 */
export function risingFront(arrivals: readonly DayOfArrival[], options: { readonly level?: number } = {}): RisingFront {
  const { level = 0.95 } = options;
  if (arrivals.length < 3) throw new DryingError(where, 'too-few', `needs at least 3 arrivals, got ${arrivals.length}`);
  checkArrivals(where, arrivals, 1);
  const line = lineOf(arrivals, level);
  if (!(line.slope.interval.lower > 0))
    throw new DryingError(where, 'out-of-order', 'needs arrivals that plainly come later the higher they are');
  const speedOf = (days_mm2: number) => 1 / Math.sqrt(days_mm2 * minutesInDay);
  const { lower, upper } = line.slope.interval;
  return {
    start_d: line.start.estimate,
    startInterval: line.start.interval,
    speed: speedOf(line.slope.estimate),
    interval: { level, lower: speedOf(upper), upper: speedOf(lower) },
    arrivals: arrivals.length,
  };
}

/** In days and squared metres, so that the two coefficients are of a size. */
function lineOf(arrivals: readonly DayOfArrival[], level: number) {
  try {
    const squares = covariate(
      'squared height',
      arrivals.map(({ height_mm }) => (height_mm / 1000) ** 2),
    );
    const fit = leastSquares(
      designMatrix([intercept(), squares]),
      arrivals.map(({ time_d }) => time_d),
    );
    const start = contrast(fit, { intercept: 1 }, { level });
    const { estimate, interval } = contrast(fit, { 'squared height': 1 }, { level });
    const perSquareMillimetre = (value: number) => value / 1e6;
    return {
      start,
      slope: {
        estimate: perSquareMillimetre(estimate),
        interval: { lower: perSquareMillimetre(interval.lower), upper: perSquareMillimetre(interval.upper) },
      },
    };
  } catch (error) {
    if (!isStatisticsError(error)) throw error;
    throw new DryingError(
      where,
      'too-few',
      `needs arrivals at different heights that do not lie on one line exactly: ${error.message}`,
    );
  }
}
