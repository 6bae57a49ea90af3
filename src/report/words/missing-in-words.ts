import type { MissingForWater } from '../../findings/electrical/charge-ledger.js';

const missing: Readonly<Record<MissingForWater, string>> = {
  area_m2: 'the area of the walls',
  thickness_mm: 'their thickness',
  dry_density_kg_m3: 'their dry density',
  'outcome-by-mass': 'an outcome in percent by mass',
  difference: 'a difference between the arms',
};

/**
 * What a folder would have to say for the water that walls lost.
 *
 * @example missingInWords('difference') // 'a difference between the arms'
 */
export function missingInWords(what: MissingForWater): string {
  return missing[what];
}
