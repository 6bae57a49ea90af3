import { describe, expect, it } from 'vitest';
import { plausibilityLedger } from '../../src/findings/potentials/voltage-ledger.js';
import { causeSignInWords } from '../../src/report/words/cause-in-words.js';
import { competingVoltages } from '../../src/report/words/competing-voltages.js';
import { ledgerDriverInWords, ledgerMethodInWords } from '../../src/report/words/ledger-in-words.js';
import { measurementInWords } from '../../src/report/words/measurement-in-words.js';
import { missingInWords } from '../../src/report/words/missing-in-words.js';

describe('what findings hold, in words', () => {
  it('measurementInWords says where the uncertainty of a weighing comes from, with its grams', () => {
    const of = (source: Parameters<typeof measurementInWords>[0]['typical']) =>
      measurementInWords({ used: 1, ...(source && { typical: source }) });
    expect(of(undefined)).toMatch(/^The trial states no uncertainty/);
    expect(of({ uncertainty: 0.1, source: { from: 'stated', uncertainty_g: 0.02 } })).toContain(
      'one weighing 0.02 g, as the protocol states',
    );
    expect(of({ uncertainty: 0.1, source: { from: 'resolution', resolution_g: 0.1 } })).toContain(
      'resolution of 0.1 g, as the protocol states',
    );
    expect(of({ uncertainty: 0.1, source: { from: 'decimals', step_g: 0.01 } })).toContain(
      'resolution of 0.01 g, read off the decimals',
    );
  });

  it('ledgerDriverInWords tells the claimed field from the examples, and the method is told once', () => {
    const ledger = plausibilityLedger(2).map(({ driver }) => driver);
    expect(ledger.map(ledgerDriverInWords)).toEqual([
      'Evaporation from the wall',
      'A field of 0.1 V/m, an example',
      'The field that the plan says the treatment makes, 2 V/m',
      'A field of 100 V/m, an example of a strong one',
    ]);
    expect(ledger.map(ledgerMethodInWords).filter((how) => how === 'computed in the same way')).toHaveLength(2);
    expect(ledgerMethodInWords({ kind: 'evaporation' })).toContain('evaporation 0.1 to 1.5 mm a day');
  });

  it('causeSignInWords gives the height of a peak of salts', () => {
    expect(causeSignInWords({ sign: 'salts-peak', height_mm: 1100 })).toContain('peaks at 1100 mm');
    expect(causeSignInWords({ sign: 'foot-coldest' })).toBe('the foot of a wall is often its coldest part');
  });

  it('missingInWords names what the folder lacks', () => {
    expect(missingInWords('dry_density_kg_m3')).toBe('their dry density');
    expect(missingInWords('difference')).toBe('a difference between the arms');
  });

  it('every competing voltage says where its number is from', () => {
    for (const { source, size, mark } of competingVoltages)
      for (const text of [source, size, mark]) expect(text).not.toBe('');
  });
});
