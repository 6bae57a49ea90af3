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

/** The wetting front reached a height at a time. */
export interface FrontArrival {
  readonly height_mm: number;
  /** Minutes since the foot of the wall was wetted. */
  readonly time_min: number;
}

export interface FrontSpeed {
  /** Height per root of time, mm/min^0.5. */
  readonly slope: number;
  readonly interval: Interval;
  readonly standardError: number;
  /** Height at time zero; 0 where the line was held to the origin. */
  readonly intercept_mm: number;
  readonly line: 'through-origin' | 'with-intercept';
  readonly arrivals: number;
}

const where = 'frontSpeed';

/**
 * The front's height against the root of time: a straight line for as long as evaporation and gravity do not matter. Through
 * the origin where the start of the wetting is known to the minute, else with an intercept, which takes up a late start.
 *
 * @throws DryingError `too-few`, `out-of-range`, `not-finite`
 * @example
 * const arrivals = [[50, 100], [101, 400], [149, 900]].map(([height_mm, time_min]) => ({ height_mm, time_min }));
 * frontSpeed(arrivals, { line: 'through-origin' }).slope // 4.993 mm/min^0.5
 */
export function frontSpeed(
  arrivals: readonly FrontArrival[],
  options: { readonly line: FrontSpeed['line']; readonly level?: number },
): FrontSpeed {
  const { line, level = 0.95 } = options;
  const fewest = line === 'through-origin' ? 2 : 3;
  if (arrivals.length < fewest)
    throw new DryingError(where, 'too-few', `needs at least ${fewest} arrivals, got ${arrivals.length}`);
  for (const { height_mm, time_min } of arrivals) {
    if (height_mm > 0 && time_min > 0 && Number.isFinite(height_mm + time_min)) continue;
    throw new DryingError(
      where,
      'out-of-range',
      `needs heights and times above 0, got ${height_mm} mm at ${time_min} min`,
    );
  }
  const root = covariate(
    'root of time',
    arrivals.map(({ time_min }) => Math.sqrt(time_min)),
  );
  try {
    const fit = leastSquares(
      designMatrix(line === 'through-origin' ? [root] : [intercept(), root]),
      arrivals.map(({ height_mm }) => height_mm),
    );
    const { estimate, standardError, interval } = contrast(fit, { 'root of time': 1 }, { level });
    const intercept_mm = line === 'through-origin' ? 0 : (fit.coefficients[0]?.estimate ?? 0);
    return { slope: estimate, interval, standardError, intercept_mm, line, arrivals: arrivals.length };
  } catch (error) {
    if (!isStatisticsError(error)) throw error;
    throw new DryingError(
      where,
      'too-few',
      `needs arrivals at different times that do not lie on one line exactly: ${error.message}`,
    );
  }
}

export interface Sorptivity {
  /** mm/min^0.5. */
  readonly sorptivity: number;
  readonly interval: Interval;
}

/** Water behind the front, volume by volume; with its interval where it was measured. */
export interface MoistureBehindFront {
  readonly value: number;
  readonly interval?: Interval;
}

/**
 * Sorptivity from the speed of the front: slope times the moisture behind it. For a moisture taken as known the interval is the
 * slope's; where it has an interval of its own the two are joined on the logarithm, limit by limit in quadrature.
 *
 * @param moistureBehindFront volume by volume, above 0 and below 1, a number or with its interval at the level of the slope's
 * @throws DryingError `out-of-range`
 * @example sorptivityOf({ slope: 5, interval: { level: 0.95, lower: 4.8, upper: 5.2 } }, 0.2).sorptivity // 1 mm/min^0.5
 * @source Hall and Hoff 2007 (as `sharpFront`); S = 7.746 A_w with A_w in kg/(m² s^0.5) (EN ISO 15148); limits of a product from
 *   those of its factors: Zou and Donner, Statistics in Medicine 27 (2008) 1693–1702 (from memory)
 */
export function sorptivityOf(
  { slope, interval }: Pick<FrontSpeed, 'slope' | 'interval'>,
  moistureBehindFront: number | MoistureBehindFront,
): Sorptivity {
  const moisture = typeof moistureBehindFront === 'number' ? { value: moistureBehindFront } : moistureBehindFront;
  const { value } = moisture;
  const { level } = interval;
  const { lower, upper } = moisture.interval ?? { lower: value, upper: value };
  if (!(value > 0 && value < 1 && lower > 0 && lower <= value && value <= upper)) {
    const detail = `needs a moisture by volume above 0 and below 1, got ${value} (${lower} to ${upper})`;
    throw new DryingError('sorptivityOf', 'out-of-range', detail);
  }
  const apart = (limit: number, of: number) => Math.log(limit / of);
  const joined = (ofSlope: number, ofMoisture: number) =>
    Math.exp(Math.hypot(apart(ofSlope, slope), apart(ofMoisture, value)));
  return {
    sorptivity: slope * value,
    interval: {
      level,
      lower: (slope * value) / joined(interval.lower, lower),
      upper: slope * value * joined(interval.upper, upper),
    },
  };
}
