import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { verdictCode } from '../../../src/analysis/verdict-code.js';
import { turningPoints } from '../../../src/opinion/judging/turning-points.js';

const interval = (lower: number, upper: number) => ({ level: 0.95, lower, upper });

describe('turningPoints', () => {
  it('by hand: a fall of 6 to 8.3 against a margin of 5 becomes “some effect” after 1, and reaches zero after 6', () => {
    expect(turningPoints(interval(-8.3, -6), 5, 'lower')).toEqual({
      flattered: [
        { shift: 1, becomes: 'some-effect' },
        { shift: 6, becomes: 'holds-zero' },
      ],
      hidden: [],
    });
  });

  it('by hand: a rise of -1 to 1 against a margin of 2, higher better: harmful or, as both limits pass at once, some effect after 1', () => {
    expect(turningPoints(interval(-1, 1), 2, 'higher')).toEqual({
      flattered: [{ shift: 1, becomes: 'harmful' }],
      hidden: [{ shift: 1, becomes: 'some-effect' }],
    });
    expect(turningPoints(interval(-1.5, 1), 2, 'higher').hidden).toEqual([
      { shift: 1, becomes: 'undecided' },
      { shift: 1.5, becomes: 'leaves-zero' },
    ]);
  });

  it('by hand: an interval from exactly 0 to 2 includes zero, and leaves it after a further fall of 2', () => {
    expect(turningPoints(interval(0, 2), 1, 'lower').hidden).toEqual([
      { shift: 1, becomes: 'undecided' },
      { shift: 2, becomes: 'leaves-zero' },
    ]);
  });

  it('by hand: harm stays harm however much a push towards the claim flattered it', () => {
    expect(turningPoints(interval(0.5, 2), 1, 'lower').flattered).toEqual([]);
  });

  it('the verdict stays just short of the first turning point and is the one named just beyond it, whatever the interval', () => {
    const limits = fc.tuple(fc.integer({ min: -400, max: 400 }), fc.integer({ min: 1, max: 300 }));
    fc.assert(
      fc.property(
        limits,
        fc.integer({ min: 1, max: 200 }),
        fc.constantFrom('lower' as const, 'higher' as const),
        ([start, width], size, better) => {
          const [lower, upper, margin] = [start / 10, (start + width) / 10, size / 10];
          const now = verdictCode(interval(lower, upper), margin, better);
          const points = turningPoints(interval(lower, upper), margin, better);
          for (const [way, first] of [
            ['flattered', points.flattered[0]],
            ['hidden', points.hidden[0]],
          ] as const) {
            const sign = (better === 'lower') === (way === 'flattered') ? 1 : -1;
            const codeAfter = (by: number) =>
              verdictCode(interval(lower + sign * by, upper + sign * by), margin, better);
            if (first === undefined) {
              for (const by of [1, 10, 1000]) expect(codeAfter(by)).toBe(now);
            } else {
              if (first.shift > 0.01) expect(codeAfter(first.shift - 0.01)).toBe(now);
              expect(codeAfter(first.shift + 1e-6)).toBe(first.becomes);
              expect(first.becomes).not.toBe(now);
            }
          }
        },
      ),
    );
  });
});
