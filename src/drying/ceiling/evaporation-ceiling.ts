import { type AirAtTime, type EvaporationPotential, evaporationPotential } from '../../moisture/index.js';
import { checkPositive } from '../checked-quantity.js';
import { DryingError } from '../drying-error.js';

/** A wall that gives its water off through one face or two. */
export interface DryingWall {
  readonly thickness_mm: number;
  /** Dry bulk density. */
  readonly density_kg_m3: number;
  /** Evaporation of all open faces together, mm of water a day: kg/m² a day. */
  readonly evaporation_mm_d: number;
  readonly period_d: number;
}

/**
 * The most that a wall's mean moisture can have fallen in a period, in percentage points by mass: all faces evaporated as
 * fast as they could from first to last, and no water came after. A larger fall is no drying of the whole wall but
 * something else: samples from its surface alone, another instrument, a face that was not counted.
 *
 * @throws DryingError `out-of-range` for a quantity that is not above zero
 * @example evaporationCeiling({ thickness_mm: 300, density_kg_m3: 1750, evaporation_mm_d: 0.5, period_d: 30 }) // 2.857
 * @source mass balance, e t / (b ρ) (computed)
 */
export function evaporationCeiling({ thickness_mm, density_kg_m3, evaporation_mm_d, period_d }: DryingWall): number {
  const where = 'evaporationCeiling';
  checkPositive(where, 'thickness', thickness_mm, 'mm');
  checkPositive(where, 'density', density_kg_m3, 'kg/m³');
  checkPositive(where, 'evaporation', evaporation_mm_d, 'mm a day');
  checkPositive(where, 'period', period_d, 'days');
  return (100 * evaporation_mm_d * period_d) / ((thickness_mm / 1000) * density_kg_m3);
}

export interface EvaporationFromAir {
  /** Of one face, 0 where the air gave more than it took. */
  readonly evaporation_mm_d: number;
  readonly potential: EvaporationPotential;
}

/**
 * What a wet face could give off to the air of a record: mean vapour pressure difference times a coefficient of transfer.
 * Outdoors it overstates still air: as a ceiling it is meant to.
 *
 * @throws MoistureError those of `evaporationPotential`; DryingError `out-of-range` for a coefficient not above zero
 * @example
 * const air = [0, 12].map((time_h) => ({ time_h, temperature_c: 12, relativeHumidity_pct: 75 }));
 * evaporationFromAir(air, moistureTransfer_kg_m2_s_pa.outdoors).evaporation_mm_d // 2.268
 */
export function evaporationFromAir(readings: readonly AirAtTime[], transfer_kg_m2_s_pa: number): EvaporationFromAir {
  const potential = evaporationPotential(readings);
  return { evaporation_mm_d: evaporationFromPressure(potential.mean_pa, transfer_kg_m2_s_pa), potential };
}

/**
 * The same from a mean vapour pressure difference that is known already.
 *
 * @throws DryingError `out-of-range`, `not-finite`
 * @example evaporationFromPressure(300, 25e-9) // 0.648 mm a day
 */
export function evaporationFromPressure(mean_pa: number, transfer_kg_m2_s_pa: number): number {
  const where = 'evaporationFromPressure';
  if (!Number.isFinite(mean_pa)) throw new DryingError(where, 'not-finite', `needs a finite pressure, got ${mean_pa}`);
  if (!(transfer_kg_m2_s_pa > 0 && transfer_kg_m2_s_pa < 1)) {
    const detail = `needs a coefficient such as 25e-9 kg/(m² s Pa), got ${transfer_kg_m2_s_pa}`;
    throw new DryingError(where, 'out-of-range', detail);
  }
  const secondsInDay = 86_400;
  // 1 kg/m² of water is 1 mm.
  return Math.max(0, transfer_kg_m2_s_pa * mean_pa * secondsInDay);
}
