import { describe, expect, it } from 'vitest';
import {
  dayOfMoisture,
  dryingOfCurve,
  frontSpeed,
  intervalUntilDry,
  isDryingError,
  specimenDryingRates,
  steadyBefore,
  timeToDry,
} from '../../src/drying/index.js';

function faultOf(run: () => unknown): string {
  try {
    run();
  } catch (error) {
    if (isDryingError(error)) return error.fault;
    throw error;
  }
  return 'none';
}

describe('on the limit', () => {
  it('a reading at the limit is dry', () => {
    expect(timeToDry({ times_d: [0, 30], moisture: [9, 5] }, 5)).toEqual({ after_d: 0, by_d: 30, last_d: 30 });
  });

  it('what was dry on day 0 was so before', () => {
    expect(intervalUntilDry(timeToDry({ times_d: [0, 30], moisture: [4, 3] }, 5))).toEqual({ after: -1, by: 0 });
  });

  it('a line through the origin takes two arrivals, one with an intercept three', () => {
    const arrivals = [
      { height_mm: 50, time_min: 100 },
      { height_mm: 101, time_min: 400 },
      { height_mm: 149, time_min: 900 },
    ];
    expect(frontSpeed(arrivals.slice(0, 2), { line: 'through-origin' }).arrivals).toBe(2);
    expect(faultOf(() => frontSpeed(arrivals.slice(0, 2), { line: 'with-intercept' }))).toBe('too-few');
    expect(frontSpeed(arrivals, { line: 'with-intercept' }).arrivals).toBe(3);
  });

  it('two walls can be at rest, one cannot', () => {
    const times_d = [0, 30, 60, 90];
    const curves = [
      { times_d, moisture: [9.1, 9.3, 9.0, 9.2] },
      { times_d, moisture: [7.9, 8.1, 8.2, 8.0] },
    ];
    expect(steadyBefore(curves).walls).toBe(2);
    expect(faultOf(() => steadyBefore(curves.slice(0, 1)))).toBe('too-few');
  });

  it('the day of what a curve starts with is day 0', () => {
    const drying = dryingOfCurve({
      times_d: [0, 30, 60, 90, 120, 150, 180],
      moisture: [10, 7.3, 5.6, 4.5, 3.9, 3.4, 3.2],
    });
    expect(dayOfMoisture(drying, drying.moistureAt(0))).toBe(0);
    expect(dayOfMoisture(drying, drying.moistureAt(0) - 0.01)).toBeGreaterThan(0);
  });

  it('shapes less than 2 apart in AICc are averaged: 0.7 is, 2.55 is not', () => {
    const moisture = [9.7, 8.1, 6.9, 5.6, 4.4, 3.7, 3.6];
    const { fits, averaged } = dryingOfCurve({ times_d: [0, 30, 60, 90, 120, 150, 180], moisture });
    const apart = new Map(fits.map(({ kind, difference }) => [kind, difference]));
    expect(apart.get('constant-rate')).toBeLessThan(2);
    expect(apart.get('exponential')).toBeGreaterThan(2);
    expect(apart.get('exponential')).toBeLessThan(3);
    expect(averaged).toEqual(['square-root', 'constant-rate']);
  });

  it('a fall of 1.9 standard errors among eight readings is no fall: Student’s t asks for 2.45', () => {
    // Residuals ±r in the order + − − + + − − + have no slope; slope −b has standard error r √(8/6)/√42.
    const signs = [1, -1, -1, 1, 1, -1, -1, 1];
    const slope = (times: number) => times * Math.sqrt(8 / 6 / 42);
    const curve = (times: number) => ({
      times_d: signs.map((_, at) => at),
      moisture: signs.map((sign, at) => 20 - slope(times) * at + sign),
    });
    expect(faultOf(() => dryingOfCurve(curve(1.9)))).toBe('not-drying');
    expect(faultOf(() => dryingOfCurve(curve(2.5)))).toBe('none');
  });

  it('a second stage of 0.9 kg/(m² √h) from 80 h on runs at 0.9/(2 √80), slower than 0.08 an hour', () => {
    const times_h = [0, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100, 110, 120, 130];
    const noise = [1, -1, 0, -1, 1, 1, -1, 0, 1, -1, 0, 1, -1, 0];
    const water_kg_m2 = times_h.map((time, at) => {
      const straight = 9 - 0.08 * Math.min(time, 80);
      return straight - 0.9 * Math.max(0, Math.sqrt(time) - Math.sqrt(80)) + 0.004 * (noise[at] as number);
    });
    const { d1, d2, knick } = specimenDryingRates({ times_h, water_kg_m2 });
    expect(d1.estimate).toBeCloseTo(0.08, 2);
    expect(d2.estimate).toBeCloseTo(0.9, 1);
    // It is the rate there, not d2/√t = 0.1, that has to be slower.
    expect(d2.estimate / Math.sqrt(knick.time_h)).toBeGreaterThan(d1.estimate);
  });
});
