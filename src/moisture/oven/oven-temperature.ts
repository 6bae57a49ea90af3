import { checkFinite } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';
import type { Source } from '../source-mark.js';
import { type CrystalWaterError, crystalWaterError } from './crystal-water-error.js';
import { type HydratedSaltName, hydratedSalts } from './hydrated-salts.js';

/** What an oven is set to, by the kind of material. */
export interface OvenSetting {
  readonly material: 'stable' | 'changes-from-70-to-105' | 'crystal-water';
  readonly temperature_c: number;
  readonly tolerance_c: number;
  readonly source: Source;
}

const iso12570: Source = { document: 'ISO 12570', mark: 'from memory' };

export const ovenSettings: readonly OvenSetting[] = [
  { material: 'stable', temperature_c: 105, tolerance_c: 2, source: iso12570 },
  { material: 'changes-from-70-to-105', temperature_c: 70, tolerance_c: 2, source: iso12570 },
  { material: 'crystal-water', temperature_c: 40, tolerance_c: 2, source: iso12570 },
];

/** One thing that the oven did to the reading, with its size. */
export type OvenFinding =
  | { readonly kind: 'too-cool'; readonly temperature_c: number; readonly usual_c: number }
  | {
      readonly kind: 'crystal-water';
      readonly temperature_c: number;
      readonly stableUpTo_c: number;
      /** From nothing up to this much too wet. */
      readonly error: CrystalWaterError;
    };

export interface OvenBatch {
  readonly temperature_c: number;
  /** Hydrated salts in the material, in percent of its dry mass; empty where none is known. */
  readonly salts: readonly { readonly salt: HydratedSaltName; readonly salt_pct: number }[];
  /** Moisture on the dry basis for which the error is sized; 0 unless given. */
  readonly moisture_pct?: number;
}

/**
 * What the oven's temperature means for the moisture of a batch: crystal water driven out of hydrated salts and read as
 * moisture, with the most that this can be; or a stable material dried cooler than usual, which leaves water in.
 *
 * @throws MoistureError `not-finite`; `out-of-range` for a temperature that dries nothing or burns (20 to 250 °C)
 * @example ovenFindings({ temperature_c: 105, salts: [{ salt: 'gypsum', salt_pct: 10 }] })[0].error.allLost_pp // 2.14 points too wet
 */
export function ovenFindings({ temperature_c, salts, moisture_pct = 0 }: OvenBatch): readonly OvenFinding[] {
  checkFinite('ovenFindings', 'oven temperature', temperature_c);
  if (!(temperature_c >= 20 && temperature_c <= 250))
    throw new MoistureError(
      'ovenFindings',
      'out-of-range',
      `needs an oven temperature from 20 to 250 °C, got ${temperature_c}; is it in °C?`,
    );
  const crystalWater = salts
    .filter(({ salt, salt_pct }) => salt_pct > 0 && temperature_c > hydratedSalts[salt].stableUpTo_c)
    .map(
      ({ salt, salt_pct }): OvenFinding => ({
        kind: 'crystal-water',
        temperature_c,
        stableUpTo_c: hydratedSalts[salt].stableUpTo_c,
        error: crystalWaterError(salt, salt_pct, moisture_pct),
      }),
    );
  return [...crystalWater, ...(salts.length === 0 ? coolness(temperature_c) : [])];
}

/** 103 °C is practised too (Building Conservation Directory 2024, seen) and lies inside 105 ± 2. */
function coolness(temperature_c: number): readonly OvenFinding[] {
  const [stable] = ovenSettings as readonly [OvenSetting, ...OvenSetting[]];
  if (temperature_c >= stable.temperature_c - stable.tolerance_c) return [];
  return [{ kind: 'too-cool', temperature_c, usual_c: stable.temperature_c }];
}
