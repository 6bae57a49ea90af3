import { checkPositive } from '../checked-quantity.js';
import { DryingError } from '../drying-error.js';

/** A wall that stands in water and evaporates. */
export interface RisingWall {
  /** mm/min^0.5. */
  readonly sorptivity: number;
  /** Water in the wetted part, volume by volume. */
  readonly moistureBehindFront: number;
  readonly thickness_mm: number;
  /** Of both faces together, per face area, mm a minute (0.001 is 1.44 mm a day). */
  readonly evaporation_mm_min: number;
}

export interface SharpFront {
  /** Height at which as much evaporates as rises. */
  readonly steadyHeight_mm: number;
  /** Water held at that height, litres per metre of wall. */
  readonly water_l_m: number;
  /** Water that passes through, litres per metre of wall and day. */
  readonly flow_l_m_d: number;
  /** Water held over water passed. */
  readonly residence_d: number;
  /** Until nine tenths of the steady height, from dry. */
  readonly timeTo90pct_d: number;
  readonly heightAt: (time_d: number) => number;
}

const minutesInDay = 1440;

/**
 * Capillary rise with evaporation by the sharp-front theory: h = S √(b / (2 e θ)) at rest, and on the way
 * h² = h² at rest × (1 − exp(−2 e t / (b θ))). Gravity, salts and joints are left out, so that it over-predicts. Twice the
 * evaporation lowers the front by a factor of √2: a season alone moves it.
 *
 * @throws DryingError `out-of-range`
 * @example sharpFront({ sorptivity: 1, moistureBehindFront: 0.2, thickness_mm: 225, evaporation_mm_min: 0.001 }).steadyHeight_mm // 750
 * @source Hall and Hoff 2007, Proc. R. Soc. A 463:1871–1884 (citation seen, formulae from memory and derived again)
 */
export function sharpFront(wall: RisingWall): SharpFront {
  const { sorptivity, moistureBehindFront: theta, thickness_mm, evaporation_mm_min } = wall;
  const where = 'sharpFront';
  checkPositive(where, 'sorptivity', sorptivity, 'mm/min^0.5');
  checkPositive(where, 'moisture behind the front', theta, 'by volume');
  checkPositive(where, 'thickness', thickness_mm, 'mm');
  checkPositive(where, 'evaporation', evaporation_mm_min, 'mm a minute');
  if (theta >= 1) throw new DryingError(where, 'out-of-range', `needs a moisture below 1 by volume, got ${theta}`);
  const steadyHeight_mm = sorptivity * Math.sqrt(thickness_mm / (2 * evaporation_mm_min * theta));
  const residence_min = (thickness_mm * theta) / evaporation_mm_min;
  return {
    steadyHeight_mm,
    water_l_m: (thickness_mm * steadyHeight_mm * theta) / 1000,
    flow_l_m_d: (evaporation_mm_min * minutesInDay * steadyHeight_mm) / 1000,
    residence_d: residence_min / minutesInDay,
    timeTo90pct_d: (-Math.log(1 - 0.81) / 2) * (residence_min / minutesInDay),
    heightAt: (time_d) => {
      if (!(time_d >= 0)) throw new DryingError(where, 'out-of-range', `needs days of 0 or more, got ${time_d}`);
      return steadyHeight_mm * Math.sqrt(-Math.expm1((-2 * time_d * minutesInDay) / residence_min));
    },
  };
}
