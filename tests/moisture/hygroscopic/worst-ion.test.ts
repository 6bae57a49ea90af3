import { describe, expect, it } from 'vitest';
import { worstClass, worstIon } from '../../../src/moisture/index.js';
import type { Recorded, SaltContents } from '../../../src/trial/index.js';

const measured = (value: number): Recorded => ({ kind: 'measured', value });
const below = (limit: number): Recorded => ({ kind: 'below-detection', limit });
const contents = (of: Partial<SaltContents>): SaltContents => ({
  chloride: { kind: 'missing' },
  nitrate: { kind: 'missing' },
  sulfate: { kind: 'missing' },
  ...of,
});

describe('worstIon, against the limits of the schemes as published', () => {
  it.each([
    // WTA 2-6-99: chloride 0.2 / 0.5, nitrate 0.1 / 0.3, sulfate 0.5 / 1.5.
    [
      { chloride: measured(0.19), nitrate: measured(0.09), sulfate: measured(0.49) },
      'low',
      ['chloride', 'nitrate', 'sulfate'],
    ],
    [{ chloride: measured(0.19), nitrate: measured(0.1), sulfate: measured(0.49) }, 'medium', ['nitrate']],
    [
      { chloride: measured(0.5), nitrate: measured(0.3), sulfate: measured(1.5) },
      'medium',
      ['chloride', 'nitrate', 'sulfate'],
    ],
    [{ chloride: measured(0.19), nitrate: measured(0.09), sulfate: measured(1.51) }, 'high', ['sulfate']],
    [{ chloride: measured(0.51) }, 'high', ['chloride']],
    [{ chloride: below(0.2) }, 'low', ['chloride']],
    [{ chloride: below(0.21) }, 'unknown', []],
    [{ chloride: below(0.21), nitrate: measured(0.2) }, 'unknown', []],
    [{ chloride: below(0.21), nitrate: measured(0.31) }, 'high', ['nitrate']],
  ] as const)('%o is %s', (of, worst, ions) => {
    expect(worstIon('wta-2-6-99', contents(of))).toMatchObject({ class: worst, ions });
  });

  it('differs with the scheme', () => {
    const sample = contents({ chloride: measured(0.15) });
    expect(worstIon('wta-2-6-99', sample)?.class).toBe('low');
    expect(worstIon('wta-3-13-01', sample)?.class).toBe('high');
  });

  it('is nothing where nothing was analysed, and refuses a negative content', () => {
    expect(worstIon('wta-2-6-99', contents({}))).toBeUndefined();
    expect(() => worstIon('wta-2-6-99', contents({ nitrate: measured(-0.1) }))).toThrow(/nitrate/);
  });
});

describe('worstClass', () => {
  it.each([
    [['low', 'medium'], 'medium'],
    [['low', 'unknown'], 'unknown'],
    [['high', 'unknown'], 'high'],
    [['unknown'], 'unknown'],
    [[], 'unknown'],
  ] as const)('%o is %s', (classes, worst) => {
    expect(worstClass(classes)).toBe(worst);
  });
});
