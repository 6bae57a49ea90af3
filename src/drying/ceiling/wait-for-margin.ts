import { checkPositive } from '../checked-quantity.js';
import { fallingStageFactor } from './assumed-values.js';
import { evaporationFromPressure } from './evaporation-ceiling.js';

/** What a wall has to lose, and the air that is to take it. */
export interface MarginToLose {
  /** Percentage points by mass on the dry basis. */
  readonly margin_pp: number;
  readonly thickness_mm: number;
  /** Dry bulk density. */
  readonly density_kg_m3: number;
  /** Mean vapour pressure difference between a wet wall and the air. */
  readonly pressure_pa: number;
  /** Open to the air. */
  readonly faces: number;
  readonly transfer_kg_m2_s_pa: number;
}

export interface WaitForMargin {
  /** Days at the first-stage rate from first to last: no wall is faster. */
  readonly least_d: number;
  /** Days until a wall that no more water enters can be expected to have lost the margin. */
  readonly wait_d: number;
}

/**
 * How long a wall needs to lose a margin once no more water enters: at the least, with surfaces that stay wet to the end; and as a wait,
 * `fallingStageFactor` times as long, since in the falling stage a wall gives off less and less. It is no forecast: a pure diffusion from a
 * front that recedes into the wall takes longer still.
 *
 * @throws DryingError `out-of-range` for a quantity that is not above zero
 * @example
 * const air = { pressure_pa: 106, faces: 2, transfer_kg_m2_s_pa: moistureTransfer_kg_m2_s_pa.indoors };
 * waitForMargin({ margin_pp: 2, thickness_mm: 330, density_kg_m3: 1700, ...air }).least_d // 24.50
 * @source mass balance and vapour transfer, m b ρ / (n β Δp) (computed); the factor is our convention
 */
export function waitForMargin(of: MarginToLose): WaitForMargin {
  const { margin_pp, thickness_mm, density_kg_m3, pressure_pa, faces, transfer_kg_m2_s_pa } = of;
  const where = 'waitForMargin';
  checkPositive(where, 'margin', margin_pp, 'percentage points');
  checkPositive(where, 'thickness', thickness_mm, 'mm');
  checkPositive(where, 'density', density_kg_m3, 'kg/m³');
  checkPositive(where, 'vapour pressure difference', pressure_pa, 'Pa');
  checkPositive(where, 'number of faces', faces, 'faces');
  const water_kg_m2 = (margin_pp / 100) * (thickness_mm / 1000) * density_kg_m3;
  const least_d = water_kg_m2 / (faces * evaporationFromPressure(pressure_pa, transfer_kg_m2_s_pa));
  return { least_d, wait_d: fallingStageFactor * least_d };
}
