import { bentCurve, type Interval, type Slope } from '../../statistics/index.js';
import { DryingError } from '../drying-error.js';

/** A saturated specimen with one open face, weighed while it dries. */
export interface SpecimenDrying {
  /** Hours since the drying began, in increasing order. */
  readonly times_h: readonly number[];
  /** Water left per open area, kg/m²: mass less dry mass, over the area. */
  readonly water_kg_m2: readonly number[];
}

export interface SpecimenDryingRates {
  /** Rate of the first stage, kg/(m² h), positive. */
  readonly d1: Slope;
  /** Rate of the second stage, kg/(m² h^0.5), positive. */
  readonly d2: Slope;
  /** Where the two lines meet. */
  readonly knick: { readonly time_h: number; readonly interval_h: Interval; readonly water_kg_m2: number };
  readonly level: number;
}

const where = 'specimenDryingRates';

/**
 * The drying rates of a specimen as EN 16322 has them: D1, the slope of the first stage against time; D2, the slope of the
 * second against the root of time; and the knick between them, all three found at once by least squares.
 *
 * @param options.level of the intervals, defaults to 0.95
 * @throws DryingError `not-drying` where the water rises, or the second stage is not the slower one at the knick: the
 *   specimen was then in one stage throughout; `lengths-differ`, `too-few`, `out-of-range`
 * @example
 * const times_h = [0, 10, 20, 30, 40, 60, 80, 100, 140, 180, 220];
 * const water_kg_m2 = [9, 8.2, 7.41, 6.6, 5.8, 4.6, 3.7, 2.86, 1.45, 0.24, 0.02];
 * specimenDryingRates({ times_h, water_kg_m2 }).d1.estimate // 0.0800 kg/(m² h)
 * @source EN 16322:2013 (title seen; the definitions from memory)
 */
export function specimenDryingRates(
  { times_h, water_kg_m2 }: SpecimenDrying,
  options: { readonly level?: number } = {},
): SpecimenDryingRates {
  const level = options.level ?? 0.95;
  checkTimes(times_h);
  const bent = bentCurve({ x: times_h, response: water_kg_m2, after: Math.sqrt }, { level });
  const [d1, d2] = [turned(bent.slopeBefore), turned(bent.slopeAfter)];
  const laterRate = d2.estimate / (2 * Math.sqrt(bent.bend));
  if (!(d1.estimate > 0 && d2.estimate > 0))
    throw new DryingError(where, 'not-drying', 'needs water that falls in both stages; it rises in one of them');
  if (laterRate >= d1.estimate) {
    const detail = 'needs a second stage slower than the first; all weighings seem to lie in one stage';
    throw new DryingError(where, 'not-drying', detail);
  }
  return {
    d1,
    d2,
    knick: { time_h: bent.bend, interval_h: bent.bendInterval, water_kg_m2: bent.atBend },
    level,
  };
}

function turned({ estimate, standardError, interval }: Slope): Slope {
  const { level, lower, upper } = interval;
  return { estimate: -estimate, standardError, interval: { level, lower: -upper, upper: -lower } };
}

function checkTimes(times_h: readonly number[]): void {
  if (times_h.some((time) => !(time >= 0)))
    throw new DryingError(where, 'out-of-range', 'needs hours of 0 or more since the drying began');
}
