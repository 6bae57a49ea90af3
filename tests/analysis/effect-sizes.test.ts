import { describe, expect, it } from 'vitest';
import { comparisonDesign, effectSizes, primaryDifference, type WallChange } from '../../src/analysis/index.js';

const wallOf = (side: 'treated' | 'untreated', change: number, number: number): WallChange => ({
  ...{ wall: `${side} ${number}`, arm: side, side, block: '', before: 9, after: 9 + change, change },
  ...{ stations: 1, places: 'same' },
});

function sizesOf(treated: readonly number[], untreated: readonly number[], better: 'lower' | 'higher' = 'lower') {
  const walls = [
    ...treated.map((change, at) => wallOf('treated', change, at)),
    ...untreated.map((change, at) => wallOf('untreated', change, at)),
  ];
  const { design } = comparisonDesign(walls);
  const primary = primaryDifference(design, { level: 0.95, unit: '% by mass' });
  return effectSizes(design, primary, { level: 0.95, better });
}

const reasonsOf = (answers: ReturnType<typeof sizesOf>) =>
  answers.map((answer) => (answer.kind === 'estimated' ? undefined : answer.notEstimated.reason.code));

describe('effectSizes(design, primary, options)', () => {
  it('says of all sizes alike that one wall an arm is too few', () => {
    expect(new Set(reasonsOf(sizesOf([-2], [0])))).toEqual(new Set(['too-few-in-arm']));
  });

  it('gives Hedges’ g and Glass’s delta of two against two, worked by hand', () => {
    const [hedges, glass] = sizesOf([-3, -1], [-1, 1]);
    // The difference is −2 and both spreads √2; the correction for two degrees of freedom is Γ(1) / (√1 Γ(1/2)) = 1 / √π.
    expect(hedges?.kind === 'estimated' && hedges.estimate.estimate).toBeCloseTo(-Math.SQRT2 / Math.sqrt(Math.PI), 9);
    expect(glass?.kind === 'estimated' && glass.estimate.id).toBe('glass-delta');
  });

  it('the probability of superiority is that of the treated walls, whichever way is better (counted by hand)', () => {
    // Of −3 and −1 against −1 and 1: three pairs in which the treated wall is lower, and one tie.
    const superior = (better: 'lower' | 'higher') => {
      const found = sizesOf([-3, -1], [-1, 1], better)[3];
      return found?.kind === 'estimated' && [found.estimate.id, found.estimate.estimate];
    };
    expect(superior('lower')).toEqual(['probability-of-superiority', 3.5 / 4]);
    expect(superior('higher')).toEqual(['probability-of-superiority', 0.5 / 4]);
  });
});
