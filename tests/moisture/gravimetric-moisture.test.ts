import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gravimetricMoisture, MoistureError } from '../../src/moisture/index.js';

const net = { container_g: 0, wet_g: 52.36, dry_g: 47.83 };

describe('gravimetricMoisture', () => {
  it('gives 9.471 % for 52.36 g wet and 47.83 g dry, worked by hand: 4.53 / 47.83', () => {
    expect(gravimetricMoisture(net, 0.005).value).toBeCloseTo(9.47104328, 7);
  });

  it('gives a balance share of 0.0155 % for 0.005 g a weighing, worked by hand from the law of propagation', () => {
    // 0.005 · sqrt((1/47.83)² + (52.36/47.83²)²) = 0.000154997, in another language
    expect(gravimetricMoisture(net, 0.005).standardUncertainty).toBeCloseTo(0.0154996569, 9);
  });

  it('takes the container off both masses', () => {
    const boxed = gravimetricMoisture({ container_g: 12, wet_g: 64.36, dry_g: 59.83 }, 0.005);
    expect(boxed.value).toBeCloseTo(9.47104328, 7);
    expect(boxed.standardUncertainty).toBeGreaterThan(gravimetricMoisture(net, 0.005).standardUncertainty);
  });

  it('agrees with the spread of simulated weighings to first order (numerical derivatives)', () => {
    const masses = { container_g: 12.1, wet_g: 64.4, dry_g: 59.8 };
    const step = 1e-5;
    const slope = (key: keyof typeof masses) =>
      (gravimetricMoisture({ ...masses, [key]: masses[key] + step }, 0).value -
        gravimetricMoisture({ ...masses, [key]: masses[key] - step }, 0).value) /
      (2 * step);
    const expected = 0.01 * Math.hypot(slope('container_g'), slope('wet_g'), slope('dry_g'));
    expect(gravimetricMoisture(masses, 0.01).standardUncertainty).toBeCloseTo(expected, 8);
  });

  it('is unchanged when every mass is scaled, and so is its uncertainty with the balance', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 200, noNaN: true }),
        fc.double({ min: 0, max: 0.4, noNaN: true }),
        // No container, or one that a balance shows: a mass of 0 has not been weighed.
        fc.oneof(fc.constant(0), fc.double({ min: 0.01, max: 50, noNaN: true })),
        fc.double({ min: 0.1, max: 100, noNaN: true }),
        (dry, moisture, container_g, scale) => {
          const masses = { container_g, dry_g: container_g + dry, wet_g: container_g + dry * (1 + moisture) };
          const scaled = { container_g: scale * container_g, dry_g: scale * masses.dry_g, wet_g: scale * masses.wet_g };
          const [one, other] = [gravimetricMoisture(masses, 0.01), gravimetricMoisture(scaled, 0.01 * scale)];
          expect(other.value).toBeCloseTo(one.value, 6);
          expect(other.standardUncertainty).toBeCloseTo(one.standardUncertainty, 6);
          expect(one.value).toBeCloseTo(100 * moisture, 6);
        },
      ),
    );
  });

  it('keeps the sign of a core lighter wet than dry within three standard uncertainties of a difference, and refuses one beyond', () => {
    // 3 · √2 · 0.01/√12 = 0.012247 g, in another language; −0.012/40 = −0.03 %
    const weighing_g = 0.01 / Math.sqrt(12);
    const core = (less_g: number) => ({ container_g: 0, wet_g: 40 - less_g, dry_g: 40 });
    expect(gravimetricMoisture(core(0.012), weighing_g).value).toBeCloseTo(-0.03, 10);
    expect(gravimetricMoisture(core(0.01), weighing_g).value).toBeCloseTo(-0.025, 10);
    expect(() => gravimetricMoisture(core(0.0125), weighing_g)).toThrow(/noise of the balance/);
    expect(() => gravimetricMoisture(core(0.01), 0)).toThrow(/noise of the balance/);
  });

  it.each([
    ['wet lighter than dry', { container_g: 0, wet_g: 47, dry_g: 47.83 }],
    ['dry as light as its container', { container_g: 12, wet_g: 13, dry_g: 12 }],
    ['a mass that is not finite', { container_g: 0, wet_g: Number.NaN, dry_g: 40 }],
    ['a container below zero', { container_g: -1, wet_g: 50, dry_g: 40 }],
  ])('refuses %s', (_, masses) => {
    expect(() => gravimetricMoisture(masses, 0.01)).toThrow(MoistureError);
  });
});
