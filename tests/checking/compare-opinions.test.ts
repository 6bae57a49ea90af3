import { describe, expect, it } from 'vitest';
import { compareOpinions, digitsInCommon } from '../../src/checking/compare-opinions.js';

describe('compareOpinions(stated, again)', () => {
  const stated = { primary: { estimate: -4.1436, walls: [12, 12] }, verdict: 'worthwhile', margin: null };

  it('counts what comes out again, and finds nothing where all does', () => {
    const { numbers, texts, deviations } = compareOpinions(stated, structuredClone(stated));
    expect({ numbers, texts, deviations }).toEqual({
      numbers: { stated: 3, again: 3 },
      texts: { stated: 1, again: 1 },
      deviations: [],
    });
  });

  it('names a changed digit, a changed word, and what is in one of the two only', () => {
    const again = { primary: { estimate: -4.1437, walls: [12] }, verdict: 'harmful', margin: null, seed: 3 };
    const { numbers, deviations } = compareOpinions(stated, again);
    expect(numbers).toEqual({ stated: 3, again: 1 });
    expect(deviations).toEqual([
      { path: 'primary.estimate', stated: -4.1436, again: -4.1437 },
      { path: 'primary.walls.1', stated: 12 },
      { path: 'verdict', stated: 'worthwhile', again: 'harmful' },
      { path: 'seed', again: 3 },
    ]);
  });

  it('takes a null for another thing than a zero', () => {
    expect(compareOpinions({ a: null }, { a: 0 }).deviations).toHaveLength(1);
  });
});

describe('digitsInCommon(one, other)', () => {
  it.each([
    [4.1436, 4.1439, 4],
    [4.1436, -4.1436, 0],
    [41.4, 4.14, 0],
    [0.5, 0.6, 0],
    [0, 0, 17],
  ])('of %d and %d: %d', (one, other, digits) => {
    expect(digitsInCommon(one, other)).toBe(digits);
  });
});
