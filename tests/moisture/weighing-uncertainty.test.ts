import { describe, expect, it } from 'vitest';
import { weighingUncertainty } from '../../src/moisture/index.js';

const balance = { instrument: 'core', kind: 'gravimetric' } as const;

describe('weighingUncertainty', () => {
  it('takes the stated uncertainty before the resolution, and the resolution before the decimals', () => {
    const stated = weighingUncertainty({ ...balance, standard_uncertainty_g: 0.02, resolution_g: 0.1 }, 0.01);
    expect(stated.standardUncertainty_g).toBe(0.02);
    expect(weighingUncertainty({ ...balance, resolution_g: 0.1 }, 0.01).standardUncertainty_g).toBeCloseTo(
      0.0288675,
      7,
    );
    expect(weighingUncertainty(balance, 0.01).standardUncertainty_g).toBeCloseTo(0.00288675, 8);
  });

  it('says where the figure comes from', () => {
    expect(weighingUncertainty(balance, 0.01).source).toEqual({ from: 'decimals', step_g: 0.01 });
    expect(weighingUncertainty({ ...balance, resolution_g: 0.1 }, 0.01).source).toEqual({
      from: 'resolution',
      resolution_g: 0.1,
    });
    const stated = weighingUncertainty({ ...balance, standard_uncertainty_g: 0.02, resolution_g: 0.1 }, 0.01);
    expect(stated.source).toEqual({ from: 'stated', uncertainty_g: 0.02 });
  });
});
