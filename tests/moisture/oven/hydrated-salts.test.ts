import { describe, expect, it } from 'vitest';
import { crystalWaterError, hydratedSalts } from '../../../src/moisture/index.js';
import { molarMassOfWater } from '../../../src/moisture/oven/hydrated-salts.js';

/** Standard atomic masses (from memory), g/mol. */
const [h, o, na, mg, s, ca] = [1.008, 15.999, 22.99, 24.305, 32.06, 40.078] as const;

describe('hydratedSalts', () => {
  it('water is 2 × 1.008 + 15.999 g/mol', () => {
    expect(molarMassOfWater).toBeCloseTo(2 * h + o, 10);
  });

  // The molar masses of mirabilite and epsomite also stand in a public encyclopaedia of salts, 322.19 and 246.48 (seen).
  it.each([
    ['gypsum', ca + s + 4 * o, 2],
    ['epsomite', mg + s + 4 * o, 7],
    ['mirabilite', 2 * na + s + 4 * o, 10],
  ] as const)('%s is what its atoms weigh: %f g/mol and %f of water', (name, anhydrous, water) => {
    const salt = hydratedSalts[name];
    expect(salt.water).toBe(water);
    expect(Math.abs(salt.molarMass - (anhydrous + water * (2 * h + o)))).toBeLessThan(0.01);
  });

  it.each([
    ['gypsum', 20.93],
    ['epsomite', 51.16],
    ['mirabilite', 55.91],
  ] as const)('%s holds %f %% of crystal water, worked by hand', (name, water_pct) => {
    expect(crystalWaterError(name, 10).crystalWater_pct).toBeCloseTo(water_pct, 2);
  });

  it('are taken as stable up to 42, 25 and 25 °C (from memory)', () => {
    const limits = (['gypsum', 'epsomite', 'mirabilite'] as const).map((name) => hydratedSalts[name]);
    expect(limits.map(({ stableUpTo_c, source }) => [stableUpTo_c, source.mark])).toEqual([
      [42, 'from memory'],
      [25, 'from memory'],
      [25, 'from memory'],
    ]);
  });
});
