import { checkPositive } from '../checked-quantity.js';
import { DryingError } from '../drying-error.js';

/** How far a wall’s mean moisture fell, and in how many days. */
export interface FallOfWall {
  /** Percentage points by mass on the dry basis; negative for a wall that became wetter. */
  readonly fall_pp: number;
  readonly thickness_mm: number;
  /** Dry bulk density. */
  readonly density_kg_m3: number;
  readonly period_d: number;
}

export interface EvaporationImplied {
  /** Of a square metre of wall through its whole thickness; negative for water taken up. */
  readonly lost_kg_m2: number;
  /** All open faces together; 1 kg/m² is 1 mm. */
  readonly evaporation_mm_d: number;
}

/**
 * The water that a wall must have given off for its mean moisture to fall as far as was read, and how much that is a day. It is the number to
 * hold against what the air could take: see `evaporationFromPressure`.
 *
 * @throws DryingError `not-finite`; `out-of-range` for a thickness, density or period that is not above zero
 * @example evaporationImplied({ fall_pp: 9.4, thickness_mm: 330, density_kg_m3: 1700, period_d: 28 }).evaporation_mm_d // 1.8834
 * @source mass balance, Δu b ρ (computed)
 */
export function evaporationImplied({ fall_pp, thickness_mm, density_kg_m3, period_d }: FallOfWall): EvaporationImplied {
  const where = 'evaporationImplied';
  if (!Number.isFinite(fall_pp)) throw new DryingError(where, 'not-finite', `needs a finite fall, got ${fall_pp}`);
  checkPositive(where, 'thickness', thickness_mm, 'mm');
  checkPositive(where, 'density', density_kg_m3, 'kg/m³');
  checkPositive(where, 'period', period_d, 'days');
  const lost_kg_m2 = (fall_pp / 100) * (thickness_mm / 1000) * density_kg_m3;
  return { lost_kg_m2, evaporation_mm_d: lost_kg_m2 / period_d };
}
