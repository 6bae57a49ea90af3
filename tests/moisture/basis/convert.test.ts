import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type DryBasisMoisture,
  gravimetricMoisture,
  isMoistureError,
  type MoistureContent,
  moistureChange,
  type Saturation,
  saturationOfPorosity,
  toDegreeOfSaturation,
  toDryBasis,
  toVolumeBasis,
  toWetBasis,
} from '../../../src/moisture/index.js';

const dry = (value: number, standardUncertainty?: number): DryBasisMoisture => ({
  basis: 'dry',
  unit: '% by mass',
  value,
  ...(standardUncertainty === undefined ? {} : { standardUncertainty }),
});
const brick = { dryDensity_kg_m3: 1750 };
const vacuum: Saturation = { kind: 'vacuum', saturated_pct: 16 };
// Computed from the formulae of the trade by hand (the formulae themselves from memory): 52.36 g wet, 47.83 g dry.
const core = gravimetricMoisture({ container_g: 0, wet_g: 52.36, dry_g: 47.83 }, 0.005);

describe('toWetBasis, toVolumeBasis, toDegreeOfSaturation', () => {
  it('give 8.652 % wet, 16.604 % by volume and 59.19 % of saturation for 9.471 % dry, worked by hand', () => {
    expect(toWetBasis(core).value).toBeCloseTo(8.6516, 4);
    expect(toVolumeBasis(core, brick).value).toBeCloseTo(16.604, 3);
    expect(toDegreeOfSaturation(core, vacuum).value).toBeCloseTo(59.19, 2);
    expect(toDegreeOfSaturation(core, vacuum).saturation.kind).toBe('vacuum');
  });

  it('come back to the dry basis with value and uncertainty, whatever the value', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -20, max: 100, noNaN: true }),
        fc.double({ min: 0, max: 5, noNaN: true }),
        (value, uncertainty) => {
          const content = dry(value, uncertainty);
          for (const there of [
            toWetBasis(content),
            toVolumeBasis(content, brick),
            toDegreeOfSaturation(content, vacuum),
          ] satisfies MoistureContent[]) {
            const back = toDryBasis(there);
            expect(back.value).toBeCloseTo(value, 10);
            expect(back.standardUncertainty).toBeCloseTo(uncertainty, 10);
          }
        },
      ),
    );
  });

  it('carry the uncertainty to first order (numerical slope), and add that of the density', () => {
    const slope = (toWetBasis(dry(9.48)).value - toWetBasis(dry(9.46)).value) / 0.02;
    expect(toWetBasis(dry(9.47, 0.3)).standardUncertainty).toBeCloseTo(0.3 * slope, 6);
    // 10 % · 1.75/0.9982 = 17.53 % by volume; 0 and 50/1750 of it.
    expect(toVolumeBasis(dry(10, 0), { ...brick, dryDensityUncertainty_kg_m3: 50 }).standardUncertainty).toBeCloseTo(
      (17.53156 * 50) / 1750,
      4,
    );
  });

  it('toWetBasis is always closer to zero than a positive dry basis, and below 100 %', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (value) => {
        const wet = toWetBasis(dry(value)).value;
        expect(wet).toBeLessThan(value);
        expect(wet).toBeLessThan(100);
      }),
    );
  });

  it('refuse more water than the pores hold, a density of nothing, and a wet basis of 100 %', () => {
    expect(() => toVolumeBasis(dry(20), { ...brick, openPorosity_pct: 30 })).toThrow(/open porosity of 30 %/);
    expect(() => toVolumeBasis(dry(20), { dryDensity_kg_m3: 0 })).toThrow(/above 0 kg/);
    expect(() => toDryBasis({ basis: 'wet', unit: '% by wet mass', value: 100 })).toThrow(/below 100 %/);
    expect(() => toWetBasis(dry(Number.NaN))).toThrow(/finite/);
    expect(() => toDegreeOfSaturation(core, { kind: 'capillary', saturated_pct: 0 })).toThrow(/above 0 %/);
  });
});

describe('saturationOfPorosity', () => {
  it('gives 17.112 % for 30 % open porosity at 1750 kg/m³, worked by hand', () => {
    expect(saturationOfPorosity(brick, 30)).toEqual({ kind: 'porosity', saturated_pct: expect.closeTo(17.112, 3) });
  });
});

describe('moistureChange', () => {
  it('says −11.58 points and −79.97 % from 14.48 to 2.90 (values: Koca, Ugural and Yaman 2024, abstract seen)', () => {
    const change = moistureChange(dry(2.9), dry(14.48));
    expect(change.difference_pp).toBeCloseTo(-11.58, 10);
    expect(change.relative_pct).toBeCloseTo(-79.97, 2);
  });

  it('has no relative change from zero or less', () => {
    expect(moistureChange(dry(1), dry(0))).toEqual({ basis: 'dry', difference_pp: 1 });
  });

  it('does not compile across bases, and is refused where the types were lost', () => {
    const wet = toWetBasis(core);
    const refusal = () =>
      // @ts-expect-error -- a wet and a dry basis
      moistureChange(core, wet);
    expect(refusal).toThrow(/got dry and wet/);
    try {
      refusal();
    } catch (error) {
      expect(isMoistureError(error) && error.fault).toBe('bases-differ');
    }
  });

  it('refuses degrees of saturation with two definitions of saturated', () => {
    const capillary = { ...vacuum, kind: 'capillary' } as const;
    expect(() => moistureChange(toDegreeOfSaturation(core, vacuum), toDegreeOfSaturation(core, capillary))).toThrow(
      /vacuum, 16 %.*capillary, 16 %/,
    );
  });
});
