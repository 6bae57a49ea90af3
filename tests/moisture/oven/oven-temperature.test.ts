import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crystalWaterError, gravimetricMoisture, ovenFindings } from '../../../src/moisture/index.js';

describe('crystalWaterError', () => {
  it('gives 20.93 % crystal water and 2.14 points for 10 % gypsum, 1.6 as hemihydrate, worked by hand', () => {
    const error = crystalWaterError('gypsum', 10);
    // 36.03/172.17, and 2.0927/97.9073
    expect(error.crystalWater_pct).toBeCloseTo(20.93, 2);
    expect(error.allLost_pp).toBeCloseTo(2.1374, 4);
    expect(crystalWaterError('gypsum', 10, 0, 1.5).allLost_pp).toBeCloseTo(1.595, 3);
  });

  it('is what weighing such a sample shows too much', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 60, noNaN: true }),
        fc.double({ min: 0, max: 25, noNaN: true }),
        (salt_pct, moisture_pct) => {
          const wet_g = 50 * (1 + moisture_pct / 100);
          const overdried_g = 50 - 50 * (salt_pct / 100) * ((2 * 18.015) / 172.17);
          const read = gravimetricMoisture({ container_g: 0, wet_g, dry_g: overdried_g }, 0).value;
          expect(crystalWaterError('gypsum', salt_pct, moisture_pct).allLost_pp).toBeCloseTo(read - moisture_pct, 8);
        },
      ),
    );
  });

  it('refuses more salt than there is sample, and more water than the salt holds', () => {
    expect(() => crystalWaterError('gypsum', 101)).toThrow(/0 to 100 %/);
    expect(() => crystalWaterError('gypsum', 10, 0, 3)).toThrow(/0 to 2 molecules/);
  });
});

describe('ovenFindings', () => {
  const gypsum = [{ salt: 'gypsum', salt_pct: 10 }] as const;

  it('warns of gypsum at 105 °C with the size of the error, and not at 40 °C', () => {
    expect(ovenFindings({ temperature_c: 105, salts: gypsum })).toMatchObject([
      { kind: 'crystal-water', error: { allLost_pp: expect.closeTo(2.1374, 4) } },
    ]);
    expect(ovenFindings({ temperature_c: 40, salts: gypsum })).toEqual([]);
  });

  it('warns of a stable material dried cool, and accepts 103 and 105 °C', () => {
    expect(ovenFindings({ temperature_c: 60, salts: [] })).toEqual([
      { kind: 'too-cool', temperature_c: 60, usual_c: 105 },
    ]);
    for (const temperature_c of [103, 105, 107]) expect(ovenFindings({ temperature_c, salts: [] })).toEqual([]);
  });

  it('refuses a temperature in kelvin', () => {
    expect(() => ovenFindings({ temperature_c: 378, salts: [] })).toThrow(/is it in °C/);
  });
});
