import {
  conductivityOfMasonry_s_per_m as conductivity,
  electroOsmoticPermeability_m2_per_vs as permeability,
  waterByElectrolysis,
  waterMovedByCharge,
} from '../../moisture/index.js';
import { mean } from '../../statistics/index.js';
import { type Trial, unitsPerPercentByMass } from '../../trial/index.js';
import type { ElectricalWall } from './electrical-of-trial.js';

/** The charge of a treated wall beside the water that moved, both as means over the treated walls with a charge. */
export interface ChargeLedger {
  readonly walls: number;
  readonly charge_c: number;
  /** From the least permeability and highest conductivity to the most. */
  readonly moved_kg: { readonly low: number; readonly high: number };
  readonly electrolysed_kg: number;
  /** Lost by the treated walls less the untreated; negative where they gained. Absent with what is missing. */
  readonly lost_kg?: number;
  /** What the folder would have to say for the water that was lost. */
  readonly missing: readonly MissingForWater[];
}

/** A column of `walls.csv`, an outcome in percent by mass, or a difference between the arms. */
export type MissingForWater = 'area_m2' | 'thickness_mm' | 'dry_density_kg_m3' | 'outcome-by-mass' | 'difference';

/**
 * Absent where no treated wall has a charge.
 *
 * @param difference of the treated walls' change less the untreated walls', in the outcome's unit; absent where there is none
 */
export function chargeLedger(
  { protocol, walls }: Trial,
  recorded: readonly ElectricalWall[],
  difference: number | undefined,
): ChargeLedger | undefined {
  const charged = recorded.filter(({ side, charge_c }) => side === 'treated' && charge_c > 0);
  if (charged.length === 0) return undefined;
  const charge_c = mean(charged.map((one) => one.charge_c));
  const unit = unitsPerPercentByMass(protocol.outcome.unit);
  const bodies = walls.filter(({ wall }) => charged.some((one) => one.wall === wall));
  const lacks = (key: 'area_m2' | 'thickness_mm' | 'dryDensity_kg_m3') =>
    bodies.some((wall) => wall[key] === undefined);
  const missing: readonly MissingForWater[] = [
    ...(lacks('area_m2') ? ['area_m2' as const] : []),
    ...(lacks('thickness_mm') ? ['thickness_mm' as const] : []),
    ...(lacks('dryDensity_kg_m3') ? ['dry_density_kg_m3' as const] : []),
    ...(unit === undefined ? ['outcome-by-mass' as const] : []),
    ...(difference === undefined ? ['difference' as const] : []),
  ];
  const dry_kg = bodies.map(
    ({ area_m2 = 0, thickness_mm = 0, dryDensity_kg_m3 = 0 }) => (area_m2 * thickness_mm * dryDensity_kg_m3) / 1000,
  );
  const lost =
    missing.length > 0 || unit === undefined ? {} : { lost_kg: (-(difference ?? 0) / unit / 100) * mean(dry_kg) };
  return {
    walls: charged.length,
    charge_c,
    moved_kg: {
      low: waterMovedByCharge(charge_c, permeability.low, conductivity.high),
      high: waterMovedByCharge(charge_c, permeability.high, conductivity.low),
    },
    electrolysed_kg: waterByElectrolysis(charge_c),
    ...lost,
    missing,
  };
}
