import { checkPositive } from '../checked-quantity.js';

/** Charge of a mole of electrons: exact since 2019 (SI brochure, from memory). */
export const faraday_c_per_mol = 96_485.332_12;
/** Of water (from memory). */
const molarMass_kg_per_mol = 0.018_015;
/** Two electrons take apart one molecule of water. */
const electronsPerMolecule = 2;
/** Of water, for the mass of a volume. */
const density_kg_per_m3 = 1000;

/**
 * Electro-osmotic permeability of fine-grained porous bodies, m²/(V·s): from 1e-9 to 1e-8, as is told of soils (from memory, after
 * Casagrande and after Mitchell). A flow in brick is measurable (J. Mater. Civ. Eng. 2024, abstract: no value seen). Lime and salts take
 * it away altogether, so that the lower end is no floor.
 */
export const electroOsmoticPermeability_m2_per_vs = { low: 1e-9, high: 1e-8 } as const;

/** Of damp masonry as a whole, S/m: from nearly dry and pure to wet and salty (from memory, weak). */
export const conductivityOfMasonry_s_per_m = { low: 0.001, high: 0.1 } as const;

/**
 * Water that electro-osmosis moves for a charge, in kg: charge × permeability / conductivity × density of water. Field and current
 * density are in proportion (E = j/σ), so that neither the area nor the spacing of the electrodes enters. An upper bound where all
 * the current flows through the wall.
 *
 * @throws MoistureError `out-of-range` unless all are above 0, `not-finite`
 * @example waterMovedByCharge(3600, 1e-9, 0.01) // 0.36
 */
export function waterMovedByCharge(
  charge_c: number,
  permeability_m2_per_vs: number,
  conductivity_s_per_m: number,
): number {
  const where = 'waterMovedByCharge';
  checkPositive(where, 'charge', charge_c, 'C');
  checkPositive(where, 'permeability', permeability_m2_per_vs, 'm²/(V·s)');
  checkPositive(where, 'conductivity', conductivity_s_per_m, 'S/m');
  return ((charge_c * permeability_m2_per_vs) / conductivity_s_per_m) * density_kg_per_m3;
}

/**
 * Water that a charge takes apart into hydrogen and oxygen, in kg, by Faraday's law: charge × molar mass / (2 F). An upper bound:
 * corrosion of the anode and chlorine take their part of the charge.
 *
 * @throws MoistureError `out-of-range` unless above 0, `not-finite`
 * @example waterByElectrolysis(3600) // 0.00033608
 */
export function waterByElectrolysis(charge_c: number): number {
  checkPositive('waterByElectrolysis', 'charge', charge_c, 'C');
  return (charge_c * molarMass_kg_per_mol) / (electronsPerMolecule * faraday_c_per_mol);
}
