import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { verdictCode } from '../../src/analysis/index.js';

const code = (lower: number, upper: number, better: 'lower' | 'higher' = 'lower') =>
  verdictCode({ level: 0.95, lower, upper }, 2, better);

describe('verdictCode', () => {
  it.each([
    [-3.4, -2.1, 'worthwhile'],
    [-3.4, -0.1, 'some-effect'],
    [-1.9, -0.1, 'smaller-than-worthwhile'],
    [-1.9, 0.5, 'no-worthwhile-effect'],
    [0.1, 0.5, 'harmful'],
    [2.1, 5, 'harmful'],
    [-2.1, 0.5, 'undecided'],
    [-9, 9, 'undecided'],
  ] as const)('verdictCode([%d, %d]) with a margin of 2, lower better, is %s', (lower, upper, expected) => {
    expect(code(lower, upper)).toBe(expected);
    expect(code(-upper, -lower, 'higher')).toBe(expected);
  });

  it.each([
    ['touches the margin from beyond', -3, -2, 'some-effect'],
    ['touches the margin from within', -2, -1, 'some-effect'],
    ['touches the margin and includes zero', -2, 1, 'undecided'],
    ['touches zero from the better side', -1, 0, 'no-worthwhile-effect'],
    ['touches zero from the worse side', 0, 1, 'no-worthwhile-effect'],
  ] as const)('a limit that %s has not passed it', (_, lower, upper, expected) => {
    expect(code(lower, upper)).toBe(expected);
  });

  it.each([
    [-3.4, -2.1, 'some-effect'],
    [-0.2, -0.1, 'some-effect'],
    [-1, 0, 'undecided'],
    [-9, 9, 'undecided'],
    [0, 1, 'undecided'],
    [0.1, 0.5, 'harmful'],
  ] as const)('verdictCode([%d, %d]) without a margin, lower better, is %s', (lower, upper, expected) => {
    expect(verdictCode({ level: 0.95, lower, upper }, undefined, 'lower')).toBe(expected);
    expect(verdictCode({ level: 0.95, lower: -upper, upper: -lower }, undefined, 'higher')).toBe(expected);
  });

  it('gives every interval exactly the code whose definition holds', () => {
    const limit = fc.double({ min: -6, max: 6, noNaN: true });
    fc.assert(
      fc.property(limit, limit, (a, b) => {
        const [worst, best] = a < b ? [a, b] : [b, a];
        const holds = {
          worthwhile: worst > 2,
          'some-effect': worst > 0 && worst <= 2 && best >= 2,
          'smaller-than-worthwhile': worst > 0 && best < 2,
          'no-worthwhile-effect': worst <= 0 && best >= 0 && best < 2,
          harmful: best < 0,
          undecided: worst <= 0 && best >= 2,
        };
        const matching = Object.entries(holds).flatMap(([name, isTrue]) => (isTrue ? [name] : []));
        expect(matching).toEqual([code(worst, best, 'higher')]);
      }),
    );
  });
});
