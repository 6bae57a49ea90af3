import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type ArmGuesses, bangIndex, jamesIndex } from '../../../../src/statistics/estimation/blinding/index.js';
import { isStatisticsError } from '../../../../src/statistics/index.js';

type Counts = [number, number, number];
interface Case {
  name: string;
  treated: Counts;
  untreated: Counts;
  bang: { estimate: number; standardError: number }[];
  james: { estimate: number; standardError: number; bootstrap: [number, number] };
}
const file = new URL('../../../reference/blinding/blinding.json', import.meta.url);
const { cases }: { cases: Case[] } = JSON.parse(readFileSync(file, 'utf8'));

function guesses([correct, wrong, undecided]: Counts): ArmGuesses {
  return { correct, wrong, undecided };
}

describe('blinding indices against R', () => {
  // R's standard errors come from numerical derivatives, good to about nine digits.
  it.each(cases)('bangIndex and jamesIndex: $name', (one) => {
    for (const [at, arm] of [one.treated, one.untreated].entries()) {
      const found = bangIndex(guesses(arm));
      expect(found.estimate).toBeCloseTo(one.bang[at]?.estimate ?? Number.NaN, 13);
      expect(found.standardError).toBeCloseTo(one.bang[at]?.standardError ?? Number.NaN, 9);
    }
    const james = jamesIndex({ treated: guesses(one.treated), untreated: guesses(one.untreated) });
    expect(james.estimate).toBeCloseTo(one.james.estimate, 13);
    expect(james.standardError).toBeCloseTo(one.james.standardError, 8);
  });

  it.each(cases.filter(({ treated }) => treated[0] > 40))(
    'jamesIndex has limits near the bootstrap’s: $name',
    (one) => {
      const { interval } = jamesIndex({ treated: guesses(one.treated), untreated: guesses(one.untreated) });
      expect(Math.abs(interval.lower - one.james.bootstrap[0])).toBeLessThan(0.003);
      expect(Math.abs(interval.upper - one.james.bootstrap[1])).toBeLessThan(0.003);
    },
  );
});

describe('blinding indices against printed examples', () => {
  it('counts remembered as the CRISP trial’s, not verified: 0.21 (0.15 to 0.26) and 0.01 (-0.07 to 0.10) at 90 %, 0.75', () => {
    const [treated, untreated] = [guesses([82, 25, 170]), guesses([29, 27, 83])];
    const [active, placebo] = [bangIndex(treated, { level: 0.9 }), bangIndex(untreated, { level: 0.9 })];
    expect(active.estimate.toFixed(2)).toBe('0.21');
    expect(active.interval.lower.toFixed(2)).toBe('0.15');
    expect(active.interval.upper.toFixed(2)).toBe('0.26');
    expect(placebo.estimate.toFixed(2)).toBe('0.01');
    expect(placebo.interval.lower.toFixed(2)).toBe('-0.07');
    expect(placebo.interval.upper.toFixed(2)).toBe('0.10');
    expect(jamesIndex({ treated, untreated }).estimate.toFixed(2)).toBe('0.75');
  });

  it('the example printed with the Julia package BlindingIndex (seen): 0.896 (0.875 to 0.918), 0.115, 0.022', () => {
    const [treated, untreated] = [guesses([48, 4, 330]), guesses([30, 22, 319])];
    const james = jamesIndex({ treated, untreated });
    const printed = [james.estimate, james.standardError, james.interval.lower, james.interval.upper];
    expect(printed.map((value) => value.toFixed(3))).toEqual(['0.896', '0.011', '0.875', '0.918']);
    const [first, second] = [bangIndex(treated), bangIndex(untreated)];
    expect([first.estimate, first.standardError].map((value) => value.toFixed(3))).toEqual(['0.115', '0.018']);
    expect([first.interval.lower, first.interval.upper].map((value) => value.toFixed(2))).toEqual(['0.08', '0.15']);
    expect([second.estimate, second.standardError].map((value) => value.toFixed(3))).toEqual(['0.022', '0.019']);
    expect([second.interval.lower, second.interval.upper].map((value) => value.toFixed(3))).toEqual([
      '-0.016',
      '0.060',
    ]);
  });
});

describe('blinding indices at their ends', () => {
  it('bangIndex of unanimous answers: 1, -1 and 0 with exact binomial limits', () => {
    // All twelve right: a share of 0.025^(1/12) right would still give that one time in forty.
    const share = 0.025 ** (1 / 12);
    const right = bangIndex(guesses([12, 0, 0]));
    expect(right).toMatchObject({ estimate: 1, standardError: 0, interval: { upper: 1 } });
    expect(right.interval.lower).toBeCloseTo(2 * share - 1, 13);
    expect(bangIndex(guesses([0, 12, 0])).interval.upper).toBeCloseTo(1 - 2 * share, 13);
    const nobody = bangIndex(guesses([0, 0, 12]));
    expect([nobody.estimate, nobody.interval.lower, nobody.interval.upper]).toEqual([0, share - 1, 1 - share]);
  });

  it('jamesIndex is 1 where nobody knows, 0 where all guess right, 1/2 for coins', () => {
    const both = (counts: Counts) => jamesIndex({ treated: guesses(counts), untreated: guesses(counts) });
    expect(both([0, 0, 9]).estimate).toBe(1);
    expect(both([0, 0, 9]).interval.lower).toBeCloseTo(0.025 ** (1 / 18), 13);
    expect(both([9, 0, 0]).estimate).toBe(0);
    expect(both([9, 0, 0]).interval.upper).toBeCloseTo(1 - 0.025 ** (1 / 18), 13);
    expect(both([9, 9, 0]).estimate).toBe(0.5);
  });

  it('jamesIndex refuses guesses that chance could not make wrong, where bangIndex still answers', () => {
    const oneArm = { treated: guesses([7, 0, 0]), untreated: guesses([0, 0, 7]) };
    expect(() => jamesIndex(oneArm)).toThrow(expect.objectContaining({ fault: 'no-variation' }));
    expect(bangIndex(oneArm.treated).estimate).toBe(1);
  });

  it.each([
    ['nobody asked', () => bangIndex(guesses([0, 0, 0])), 'too-few'],
    ['half a guess', () => bangIndex(guesses([0.5, 1, 1])), 'out-of-range'],
    [
      'a negative count',
      () => jamesIndex({ treated: guesses([-1, 1, 1]), untreated: guesses([1, 1, 1]) }),
      'out-of-range',
    ],
    ['level 1', () => bangIndex(guesses([1, 1, 1]), { level: 1 }), 'out-of-range'],
  ])('%s is refused', (_case, call, fault) => {
    expect(call).toThrow(expect.objectContaining({ name: 'StatisticsError', fault }));
  });

  it('stay on their scales, with the estimate inside the limits, and bangIndex turns round with right and wrong', () => {
    const count = fc.integer({ min: 0, max: 60 });
    const arm = fc.tuple(count, count, count).filter(([a, b, c]) => a + b + c > 0);
    fc.assert(
      fc.property(arm, arm, fc.double({ min: 0.5, max: 0.999, noNaN: true }), (treated, untreated, level) => {
        const found = bangIndex(guesses(treated), { level });
        expect(found.interval.lower).toBeGreaterThanOrEqual(-1);
        expect(found.interval.upper).toBeLessThanOrEqual(1);
        expect(found.interval.lower).toBeLessThanOrEqual(found.estimate);
        expect(found.interval.upper).toBeGreaterThanOrEqual(found.estimate);
        const [right, wrong, undecided] = treated;
        expect(bangIndex(guesses([wrong, right, undecided]), { level }).estimate).toBeCloseTo(-found.estimate, 14);
        try {
          const james = jamesIndex({ treated: guesses(treated), untreated: guesses(untreated) }, { level });
          expect(james.interval.lower).toBeLessThanOrEqual(james.estimate + 1e-12);
          expect(james.interval.upper).toBeGreaterThanOrEqual(james.estimate - 1e-12);
        } catch (error) {
          expect(isStatisticsError(error) && error.fault).toBe('no-variation');
        }
      }),
      { numRuns: 200 },
    );
  });
});
