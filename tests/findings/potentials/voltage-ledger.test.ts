import { describe, expect, it } from 'vitest';
import { plausibilityLedger } from '../../../src/findings/potentials/voltage-ledger.js';

describe('plausibilityLedger', () => {
  // S √(e/(2 b θ)) in mm/min, times 1440: √(e · 1440 · 1/(2 · 225 · 0.2)) = 4 √e for e in mm a day.
  const drawn = [4 * Math.sqrt(0.1), 4 * Math.sqrt(1.5)];
  // ε ζ E/η · 86 400 s · 1000 mm · 0.15, at 1 V/m and 40 mV: worked by hand, 0.404288 mm a day.
  const perVolt = ((78.4 * 8.854e-12 * 0.04) / 0.89e-3) * 86_400_000 * 0.15;

  it('ranges from the least to the most: 1.26 to 4.90 mm a day by evaporation, 0 to 0.040 and 40 by 0.1 and 100 V/m', () => {
    const [air, weak, strong] = plausibilityLedger();
    expect(air?.flux_mm_per_day.low).toBeCloseTo(drawn[0] as number, 10);
    expect(air?.flux_mm_per_day.high).toBeCloseTo(drawn[1] as number, 10);
    expect(air?.share).toEqual({ low: 1, high: 1 });
    expect(perVolt).toBeCloseTo(0.404, 3);
    for (const [entry, field] of [
      [weak, 0.1],
      [strong, 100],
    ] as const) {
      expect(entry?.flux_mm_per_day.low).toBe(0);
      expect(entry?.flux_mm_per_day.high).toBeCloseTo(field * perVolt, 10);
      expect(entry?.share.low).toBe(0);
      expect(entry?.share.high).toBeCloseTo((field * perVolt) / (drawn[0] as number), 10);
    }
  });

  it('holds the field that the plan claims', () => {
    expect(plausibilityLedger(5)[2]?.flux_mm_per_day.high).toBeCloseTo(5 * perVolt, 10);
  });
});
