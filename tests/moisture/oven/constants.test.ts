import { describe, expect, it } from 'vitest';
import {
  crystalWaterError,
  dryingRules,
  hydratedSalts,
  ovenFindings,
  ovenSettings,
  statedTolerance,
} from '../../../src/moisture/index.js';
import { molarMassOfWater } from '../../../src/moisture/oven/hydrated-salts.js';

describe('the oven’s constants', () => {
  it('are the settings of ISO 12570 (from memory): 105, 70 and 40 °C, each within 2', () => {
    expect(ovenSettings.map(({ temperature_c, tolerance_c }) => [temperature_c, tolerance_c])).toEqual([
      [105, 2],
      [70, 2],
      [40, 2],
    ]);
    expect(new Set(ovenSettings.map(({ source }) => source.mark))).toEqual(new Set(['from memory']));
  });

  it('are the two stop rules: ISO 12570 (from memory), Building Conservation Directory 2024 (seen)', () => {
    const numbers = Object.values(dryingRules).map(({ interval_h, tolerance_pct, weighings }) => [
      interval_h,
      tolerance_pct,
      weighings,
    ]);
    expect(numbers).toEqual([
      [24, 0.1, 3],
      [4, 0.5, 2],
    ]);
  });

  // Standard atomic masses (from memory): H 1.008, O 15.999, Na 22.990, Mg 24.305, S 32.06, Ca 40.078.
  const water = 2 * 1.008 + 15.999;
  const sulfate = 32.06 + 4 * 15.999;
  it.each([
    ['gypsum', 40.078 + sulfate + 2 * water, 2],
    ['epsomite', 24.305 + sulfate + 7 * water, 7],
    ['mirabilite', 2 * 22.99 + sulfate + 10 * water, 10],
  ] as const)(
    'are the molar mass and crystal water of %s, by its formula: %f g/mol with %d',
    (salt, mass, molecules) => {
      expect(Math.abs(hydratedSalts[salt].molarMass - mass)).toBeLessThan(0.01);
      expect(hydratedSalts[salt].water).toBe(molecules);
      expect(crystalWaterError(salt, 10).crystalWater_pct).toBeCloseTo((100 * molecules * water) / mass, 2);
    },
  );

  it('are the water’s own molar mass, and the temperatures up to which salts keep theirs (from memory)', () => {
    expect(molarMassOfWater).toBeCloseTo(water, 6);
    const stable = Object.values(hydratedSalts).map(({ stableUpTo_c }) => stableUpTo_c);
    expect(stable).toEqual([42, 25, 25]);
    const of = (temperature_c: number) => ovenFindings({ temperature_c, salts: [{ salt: 'gypsum', salt_pct: 10 }] });
    expect(of(42)).toEqual([]);
    expect(of(42.1)).toMatchObject([{ kind: 'crystal-water' }]);
  });

  it('take an oven from 20 to 250 °C, and call 103 °C hot enough and 102.9 too cool', () => {
    const of = (temperature_c: number) => ovenFindings({ temperature_c, salts: [] });
    expect(of(20)).toMatchObject([{ kind: 'too-cool', usual_c: 105 }]);
    expect(() => of(19.9)).toThrow(/from 20 to 250/);
    expect(of(250)).toEqual([]);
    expect(() => of(250.1)).toThrow(/from 20 to 250/);
    expect(of(103)).toEqual([]);
    expect(of(102.9)).toMatchObject([{ kind: 'too-cool' }]);
  });

  it('take a stop rule of up to 5 % as one, our own rule', () => {
    expect(statedTolerance('change under 5 %')).toBe(5);
    expect(statedTolerance('change under 5.1 %')).toBeUndefined();
  });
});
