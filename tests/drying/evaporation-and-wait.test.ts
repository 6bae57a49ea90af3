import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  evaporationCeiling,
  evaporationFromPressure,
  evaporationImplied,
  evaporationInSun_mm_d,
  fallingStageFactor,
  isDryingError,
  moistureTransfer_kg_m2_s_pa,
  waitForMargin,
} from '../../src/drying/index.js';
import { expectRelative } from '../helpers/expect-relative.js';

function faultOf(run: () => unknown): string | undefined {
  try {
    run();
  } catch (error) {
    if (isDryingError(error)) return error.fault;
    throw error;
  }
  return undefined;
}

describe('evaporationImplied(fall)', () => {
  const wall = { fall_pp: 9.4, thickness_mm: 330, density_kg_m3: 1700, period_d: 28 };

  it('is Δu b ρ over the days (computed by hand): 10.0 to 0.6 % in four weeks need 1.88 mm a day', () => {
    const { lost_kg_m2, evaporation_mm_d } = evaporationImplied(wall);
    expectRelative(lost_kg_m2, 0.094 * 0.33 * 1700, 1e-14);
    expect(evaporation_mm_d.toFixed(3)).toBe('1.883');
  });

  it('is the inverse of evaporationCeiling, and negative for a wall that became wetter', () => {
    const { evaporation_mm_d } = evaporationImplied(wall);
    expectRelative(evaporationCeiling({ ...wall, evaporation_mm_d }), wall.fall_pp, 1e-14);
    expect(evaporationImplied({ ...wall, fall_pp: -1 }).evaporation_mm_d).toBeLessThan(0);
  });

  it('refuses what is not finite or not above zero', () => {
    expect(faultOf(() => evaporationImplied({ ...wall, fall_pp: Number.NaN }))).toBe('not-finite');
    for (const key of ['thickness_mm', 'density_kg_m3', 'period_d'] as const)
      expect(faultOf(() => evaporationImplied({ ...wall, [key]: 0 }))).toBe('out-of-range');
  });
});

describe('waitForMargin(margin to lose)', () => {
  const wall = {
    margin_pp: 2,
    thickness_mm: 330,
    density_kg_m3: 1700,
    pressure_pa: 106,
    faces: 2,
    transfer_kg_m2_s_pa: moistureTransfer_kg_m2_s_pa.indoors,
  };

  it('is 24 days at the least for 2 % of 330 mm × 1700 kg/m³ at 106 Pa and two faces: 11.2 kg/m² at 0.46 mm a day (by hand)', () => {
    const evaporation_mm_d = 2 * evaporationFromPressure(106, 25e-9);
    expect(evaporation_mm_d.toFixed(2)).toBe('0.46');
    const { least_d, wait_d } = waitForMargin(wall);
    expectRelative(least_d, 11.22 / evaporation_mm_d, 1e-12);
    expect(Math.floor(least_d)).toBe(24);
    expectRelative(wait_d, 4 * least_d, 1e-14);
    expect(fallingStageFactor).toBe(4);
  });

  it('is the time in which evaporationCeiling comes to the margin', () => {
    const { least_d } = waitForMargin(wall);
    const evaporation_mm_d = 2 * evaporationFromPressure(106, 25e-9);
    expectRelative(evaporationCeiling({ ...wall, evaporation_mm_d, period_d: least_d }), 2, 1e-12);
  });

  it('grows with margin, thickness and density, and shrinks with pressure, faces and transfer', () => {
    const more = fc.double({ min: 1.01, max: 5, noNaN: true });
    const grows = fc.constantFrom('margin_pp', 'thickness_mm', 'density_kg_m3');
    const shrinks = fc.constantFrom('pressure_pa', 'faces', 'transfer_kg_m2_s_pa');
    fc.assert(
      fc.property(more, grows, shrinks, (factor, up, down) => {
        const { wait_d } = waitForMargin(wall);
        expect(waitForMargin({ ...wall, [up]: factor * wall[up] }).wait_d).toBeGreaterThan(wait_d);
        expect(waitForMargin({ ...wall, [down]: factor * wall[down] }).wait_d).toBeLessThan(wait_d);
      }),
    );
  });

  it('refuses what is not above zero', () => {
    for (const key of ['margin_pp', 'thickness_mm', 'density_kg_m3', 'pressure_pa', 'faces'] as const)
      expect(faultOf(() => waitForMargin({ ...wall, [key]: 0 }))).toBe('out-of-range');
    expect(faultOf(() => waitForMargin({ ...wall, transfer_kg_m2_s_pa: 0 }))).toBe('out-of-range');
  });
});

it('evaporationInSun_mm_d is 100 W/m² over the latent heat of 2.47 MJ/kg (computed)', () => {
  expect(((100 * 86_400) / 2.47e6).toFixed(1)).toBe(evaporationInSun_mm_d.toFixed(1));
});
