import { describe, expect, it } from 'vitest';
import { evidenceFrom, type Seriousness, type Weakness } from '../../src/opinion/index.js';

function weaknesses(...list: readonly Seriousness[]): Weakness[] {
  return list.map((seriousness, index) => ({ code: `w${index}`, seriousness, text: '', remedy: '' }));
}

describe('evidenceFrom', () => {
  it.each([
    [[], 'firm'],
    [['minor', 'minor'], 'firm'],
    [['minor', 'minor', 'minor'], 'fair'],
    [['serious'], 'fair'],
    [['serious', 'minor', 'minor'], 'fair'],
    [['serious', 'minor', 'minor', 'minor'], 'shaky'],
    [['serious', 'serious'], 'shaky'],
    [['fatal'], 'none'],
    [['fatal', 'minor'], 'none'],
  ] as const)('evidenceFrom(%j) is %s', (list, expected) => {
    expect(evidenceFrom(weaknesses(...list))).toBe(expected);
  });

  it('never grows firmer with one weakness more', () => {
    const order = ['firm', 'fair', 'shaky', 'none'];
    const kinds = ['minor', 'serious', 'fatal'] as const;
    for (let minor = 0; minor < 5; minor++)
      for (let serious = 0; serious < 4; serious++) {
        const list = [...Array<'minor'>(minor).fill('minor'), ...Array<'serious'>(serious).fill('serious')];
        for (const more of kinds)
          expect(order.indexOf(evidenceFrom(weaknesses(...list, more)))).toBeGreaterThanOrEqual(
            order.indexOf(evidenceFrom(weaknesses(...list))),
          );
      }
  });
});
