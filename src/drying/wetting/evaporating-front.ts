import {
  type Interval,
  isStatisticsError,
  type NonlinearFit,
  nonlinearLeastSquares,
  profileInterval,
} from '../../statistics/index.js';
import { DryingError } from '../drying-error.js';
import { checkArrivals } from './check-arrivals.js';
import { type DayOfArrival, risingFront } from './rising-front.js';

/** A front that slows down because the wall behind it evaporates. */
export interface EvaporatingFront {
  /** When the water set out from height 0, on the arrivals' clock. */
  readonly start_d: number;
  /** Height per root of time at the foot, where nothing has evaporated yet, mm/min^0.5. */
  readonly speed: number;
  readonly interval: Interval;
  /** Absent where the arrivals bend the other way, or not at all: the fit is then that of `risingFront`. */
  readonly rest?: FrontAtRest;
  readonly arrivals: number;
}

/** Where as much evaporates as rises. */
export interface FrontAtRest {
  readonly height_mm: number;
  readonly lowest_mm: number;
  /** Absent where the arrivals do not exclude that nothing evaporates. */
  readonly highest_mm?: number;
  /** Share of the water behind the front that evaporates in a day: evaporation over thickness and moisture, e/(b θ). */
  readonly loss_per_d: number;
}

type Parameter = 'start' | 'slope' | 'bend';

const where = 'evaporatingFront';
const minutesInDay = 1440;
/** Heights enter in squared metres, so that the parameters are of a size. */
const perSquareMetre = 1e6;

/**
 * Sharp-front rise with evaporation fitted to arrivals: h² = H² (1 − exp(−2 a t)), solved for the time and fitted to the times by least
 * squares, t = start − ln(1 − h²/H²) × H²/k². The speed k at the foot is what sorptivity comes from; a straight line on squared heights
 * takes evaporation for a low sorptivity. Limits are those of the profile of the sum of squares.
 *
 * @throws DryingError `too-few` below four heights, or where the arrivals lie on the curve exactly or do not limit it; `out-of-range`,
 *   `out-of-order` as `risingFront`
 * @example
 * const arrivals = [[100, 1.29], [200, 2.16], [300, 3.75], [400, 6.29], [500, 10.2], [600, 17.0]].map(([height_mm, time_d]) => ({ height_mm, time_d }));
 * evaporatingFront(arrivals).rest.height_mm // 751.7
 * @source Hall and Hoff 2007 (as `sharpFront`, of which this is the inverse); profile limits as `profileInterval`
 */
export function evaporatingFront(
  arrivals: readonly DayOfArrival[],
  options: { readonly level?: number } = {},
): EvaporatingFront {
  const level = options.level ?? 0.95;
  checkArrivals(where, arrivals, 4);
  const straight = risingFront(arrivals, { level });
  const squares = arrivals.map(({ height_mm }) => height_mm ** 2 / perSquareMetre);
  const slope = perSquareMetre / (straight.speed ** 2 * minutesInDay);
  const most = 0.999 / Math.max(...squares);
  try {
    const fit = nonlinearLeastSquares<Parameter, number>({
      model: ({ start, slope: days, bend }, square) => start + days * bent(square, bend),
      x: squares,
      response: arrivals.map(({ time_d }) => time_d),
      start: [0.05, 0.4, 0.8].map((share) => ({
        start: straight.start_d,
        slope: slope * (1 - share / 2),
        bend: share * most,
      })),
      bounds: { bend: { lower: 0, upper: most } },
    });
    if (fit.held.length > 0) return withoutBend(fit, straight, arrivals.length);
    const limits = profileInterval(fit, 'slope', { level });
    return {
      start_d: fit.estimates.start,
      speed: speedOf(fit.estimates.slope),
      interval: { level, lower: speedOf(limits.upper), upper: speedOf(limits.lower) },
      rest: restOf(fit, level),
      arrivals: arrivals.length,
    };
  } catch (error) {
    if (!isStatisticsError(error)) throw error;
    throw new DryingError(
      where,
      'too-few',
      `needs arrivals that limit the curve and scatter about it: ${error.message}`,
    );
  }
}

/** −ln(1 − bend × square)/bend: the square itself where nothing evaporates, and more the nearer the front is to its rest. */
function bent(square: number, bend: number): number {
  return bend === 0 ? square : -Math.log1p(-bend * square) / bend;
}

function speedOf(days_m2: number): number {
  return Math.sqrt(perSquareMetre / (days_m2 * minutesInDay));
}

function withoutBend(
  { held }: NonlinearFit<Parameter, number>,
  { start_d, speed, interval }: ReturnType<typeof risingFront>,
  arrivals: number,
): EvaporatingFront {
  if (held.some(({ bound }) => bound === 'upper'))
    throw new DryingError(where, 'too-few', 'needs arrivals on the way up; the highest ones alone bend the curve');
  return { start_d, speed, interval, arrivals };
}

function restOf(fit: NonlinearFit<Parameter, number>, level: number): FrontAtRest {
  const { slope, bend } = fit.estimates;
  const { lower, upper } = profileInterval(fit, 'bend', { level });
  const heightOf = (value: number) => Math.sqrt(perSquareMetre / value);
  return {
    height_mm: heightOf(bend),
    lowest_mm: heightOf(upper),
    ...(lower > 0 ? { highest_mm: heightOf(lower) } : {}),
    loss_per_d: bend / (2 * slope),
  };
}

/**
 * Evaporation of both faces together, mm a day, that slows a front down as it was seen to: e = a b θ.
 *
 * @param moistureBehindFront volume by volume, above 0 and below 1
 * @throws DryingError `out-of-range`
 * @example evaporationOfFront({ loss_per_d: 0.032 }, { thickness_mm: 225, moistureBehindFront: 0.2 }) // 1.44
 * @source as `sharpFront`
 */
export function evaporationOfFront(
  { loss_per_d }: Pick<FrontAtRest, 'loss_per_d'>,
  { thickness_mm, moistureBehindFront }: { readonly thickness_mm: number; readonly moistureBehindFront: number },
): number {
  const parts = [
    ['loss a day', loss_per_d, Number.POSITIVE_INFINITY],
    ['thickness', thickness_mm, Number.POSITIVE_INFINITY],
    ['moisture by volume', moistureBehindFront, 1],
  ] as const;
  for (const [name, value, below] of parts) {
    if (value > 0 && value < below) continue;
    throw new DryingError(
      'evaporationOfFront',
      'out-of-range',
      `needs a ${name} above 0 and below ${below}, got ${value}`,
    );
  }
  return loss_per_d * thickness_mm * moistureBehindFront;
}
