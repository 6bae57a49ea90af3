import { checkFinite } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';
import { type HydratedSaltName, hydratedSalts, molarMassOfWater } from './hydrated-salts.js';

/** How much too wet a sample reads when the oven drives crystal water out of it. */
export interface CrystalWaterError {
  readonly salt: HydratedSaltName;
  /** Mass of the hydrated salt in percent of the dry mass, crystal water included. */
  readonly salt_pct: number;
  /** Crystal water in percent of the hydrated salt. */
  readonly crystalWater_pct: number;
  /** Percentage points too wet on the dry basis where all of it leaves. */
  readonly allLost_pp: number;
}

/**
 * The error on the dry basis where all crystal water of a hydrated salt leaves in the oven. With c the crystal water as a
 * share of the true dry mass, a sample of moisture u reads (1 + u)/(1 − c) − 1, that is (1 + u)·c/(1 − c) too much.
 *
 * It is a bound: how much leaves in a given time below full dehydration is not modelled.
 *
 * @param moisture_pct true moisture on the dry basis; 0 unless given
 * @param waterLost molecules of water that leave; all unless given (gypsum to hemihydrate: 1.5)
 * @throws MoistureError `not-finite`, `out-of-range`
 * @example crystalWaterError('gypsum', 10).allLost_pp // 2.14
 * @source own derivation; molar masses: standard atomic masses (from memory)
 */
export function crystalWaterError(
  salt: HydratedSaltName,
  salt_pct: number,
  moisture_pct = 0,
  waterLost: number = hydratedSalts[salt].water,
): CrystalWaterError {
  const where = 'crystalWaterError';
  checkFinite(where, 'moisture', moisture_pct);
  if (!(salt_pct >= 0 && salt_pct <= 100))
    throw new MoistureError(where, 'out-of-range', `needs a salt content from 0 to 100 %, got ${salt_pct} %`);
  const { molarMass, water } = hydratedSalts[salt];
  if (!(waterLost >= 0 && waterLost <= water))
    throw new MoistureError(where, 'out-of-range', `needs 0 to ${water} molecules of water lost, got ${waterLost}`);
  const lost = (waterLost * molarMassOfWater) / molarMass;
  const ofDryMass = (salt_pct / 100) * lost;
  return {
    salt,
    salt_pct,
    crystalWater_pct: 100 * lost,
    allLost_pp: (100 + moisture_pct) * (ofDryMass / (1 - ofDryMass)),
  };
}
