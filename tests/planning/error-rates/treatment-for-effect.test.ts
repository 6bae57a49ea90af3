import { describe, expect, it } from 'vitest';
import { treatmentForEffect } from '../../../src/planning/error-rates/treatment-for-effect.js';
import { plainDesign } from '../../../src/planning/simulated-wall/simulated-design.js';

describe('treatmentForEffect', () => {
  it('finds a barrier of the wanted effect, and measures what it does', () => {
    const sizing = { searchTrials: 8, countTrials: 30, seed: 5 };
    const [small, large] = [1, 3].map((wanted) => treatmentForEffect(plainDesign, wanted, sizing));
    for (const [sized, wanted] of [
      [small, 1],
      [large, 3],
    ] as const) {
      expect(Math.abs((sized?.effect ?? 0) - wanted)).toBeLessThan(0.1);
      expect(sized?.standardError).toBeGreaterThan(0);
      expect(sized?.standardError).toBeLessThan(0.05);
    }
    if (small?.treatment.kind !== 'supply' || large?.treatment.kind !== 'supply') throw new Error('no barrier');
    expect(large.treatment.factor).toBeLessThan(small.treatment.factor);
  });

  it('does not depend on how walls are allocated, read or lost', () => {
    const sizing = { searchTrials: 3, countTrials: 3, seed: 5 };
    const {
      treated: _,
      untreated: __,
      ...other
    } = { ...plainDesign, layout: 'pairs', dropOut: 0.2, readersKnow: 'and-hide-it', shaved_pp: 2 } as const;
    expect(treatmentForEffect({ ...other, treated: 4, untreated: 4 }, 2, sizing)).toEqual(
      treatmentForEffect(plainDesign, 2, sizing),
    );
  });
});
