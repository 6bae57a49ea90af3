import { describe, expect, it } from 'vitest';
import { differenceInWords } from '../../src/words/quantity.js';

describe('differenceInWords(value, unit, decimals)', () => {
  it.each([
    [1, 0, '1 percentage point'],
    [-1, 0, '−1 percentage point'],
    [2, 0, '2 percentage points'],
    [1, 2, '1.00 percentage points'],
    [0.5, 1, '0.5 percentage points'],
  ] as const)('of %f to %i decimals is %s: one alone is singular', (value, decimals, text) => {
    expect(differenceInWords(value, '% by mass', decimals)).toBe(text);
  });

  it('keeps a unit that is no percentage', () => {
    expect(differenceInWords(1, 'index points', 0)).toBe('1 index points');
  });
});
