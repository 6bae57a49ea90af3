import { describe, expect, it } from 'vitest';
import { type DryingBatch, dryingRules, judgeDrying } from '../../../src/moisture/index.js';

const steady = (sample: string, ...masses: number[]) => ({
  sample,
  weighings: masses.map((mass_g, index) => ({ time_h: 24 * (index + 1), mass_g })),
});
const batch: DryingBatch = {
  batch: 'B1',
  temperature_c: 105,
  salts: [{ salt: 'gypsum', salt_pct: 5 }],
  rule: dryingRules['iso-12570'],
  samples: [{ ...steady('a', 50, 50, 50), wet_g: 55 }, steady('b', 50, 49, 48), steady('c', 50)],
};

describe('judgeDrying', () => {
  it('counts what reached constant mass, keeps rule and temperature, and sizes what is still in it and driven out', () => {
    const judged = judgeDrying(batch);
    expect(judged.samples.map(({ constantMass }) => constantMass.kind)).toEqual([
      'reached',
      'not-reached',
      'cannot-tell',
    ]);
    expect(judged).toMatchObject({ batch: 'B1', temperature_c: 105, reached: 1, rule: { tolerance_pct: 0.1 } });
    // Three weighings alike: nothing to come.
    expect(judged.stillInIt_pp).toBe(0);
    expect(judged.notKnown).toBe(0);
    // 5 % · 0.20927 of the dry mass: 1.04635/98.95365.
    expect(judged.findings).toMatchObject([
      { kind: 'crystal-water', error: { allLost_pp: expect.closeTo(1.0574, 3) } },
    ]);
  });

  it('does not say what was still in it where nothing was reached, and refuses an empty batch', () => {
    expect(judgeDrying({ ...batch, samples: [steady('c', 50)] })).not.toHaveProperty('stillInIt_pp');
    expect(() => judgeDrying({ ...batch, samples: [] })).toThrow(/samples in batch B1/);
  });
});
