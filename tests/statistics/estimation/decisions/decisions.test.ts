import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Better,
  confidenceCurve,
  equivalence,
  fixedSequence,
  holm,
  minimumEffect,
  powerOfT,
  smallestDetectable,
} from '../../../../src/statistics/estimation/decisions/index.js';

interface Reference {
  judged: {
    name: string;
    estimate: number;
    standardError: number;
    degreesOfFreedom: number;
    margin: number;
    equivalence: { againstLower: number; againstUpper: number; lower: number; upper: number };
    minimumEffect: Record<Better | 'either', number>;
    curve: { steps: number; pValue: number }[];
  }[];
  adjusted: { p: number[]; holm: number[] }[];
  powers: { effect: number; standardError: number; degreesOfFreedom: number; level: number; power: number }[];
  detectable: { standardError: number; degreesOfFreedom: number; level: number; power: number; smallest: number }[];
}

const file = new URL('../../../reference/decisions/decisions.json', import.meta.url);
const reference: Reference = JSON.parse(readFileSync(file, 'utf8'));

function close(found: number | undefined, wanted: number, relative = 1e-10): void {
  expect(Math.abs((found ?? Number.NaN) - wanted)).toBeLessThanOrEqual(relative * Math.abs(wanted) + 1e-15);
}

describe('decisions against R', () => {
  it.each(reference.judged)(
    'equivalence is t.test at either margin: $name',
    ({ margin, equivalence: wanted, ...judged }) => {
      const found = equivalence(judged, { margin });
      close(found.againstLower, wanted.againstLower);
      close(found.againstUpper, wanted.againstUpper);
      expect(found.pValue).toBe(Math.max(found.againstLower, found.againstUpper));
      close(found.interval.lower, wanted.lower);
      close(found.interval.upper, wanted.upper);
    },
  );

  it.each(reference.judged)(
    'minimumEffect is t.test beyond the margin: $name',
    ({ margin, minimumEffect: wanted, ...judged }) => {
      for (const better of ['lower', 'higher', 'either'] as const) {
        close(minimumEffect(judged, { margin, better }).pValue, wanted[better]);
      }
    },
  );

  it.each(reference.judged)('confidenceCurve is t.test at every value: $name', ({ curve, ...judged }) => {
    const points = confidenceCurve(judged, { points: 17 });
    for (const { steps, pValue } of curve) {
      const point = points[8 + 2 * steps];
      close(point?.value, judged.estimate + steps * judged.standardError);
      close(point?.pValue, pValue);
      expect(point?.level).toBe(1 - (point?.pValue ?? Number.NaN));
    }
  });

  it.each(reference.adjusted)('holm is p.adjust: $p', ({ p, ...wanted }) => {
    for (const [at] of p.entries()) {
      close(holm(p)[at], wanted.holm[at] ?? Number.NaN, 1e-14);
    }
  });

  it.each(reference.powers)('powerOfT($effect) is pt(ncp)', ({ effect, power, ...precision }) => {
    close(powerOfT(effect, precision), power, 1e-9);
  });

  it.each(reference.detectable)(
    'smallestDetectable at power $power is power.t.test: $smallest',
    ({ power, smallest, ...precision }) => {
      close(smallestDetectable(precision, { power }), smallest, 1e-8);
    },
  );
});

describe('decisions by hand', () => {
  it('holm of the fifteen p-values of Benjamini and Hochberg 1995 rejects three at 5 %', () => {
    const fifteen = reference.adjusted[1]?.p ?? [];
    expect(holm(fifteen).filter((p) => p <= 0.05)).toHaveLength(3);
  });

  it('fixedSequence stops at the first that is not rejected', () => {
    expect(fixedSequence([0.01, 0.05, 0.2, 0.001])).toEqual([
      { pValue: 0.01, adjusted: 0.01, outcome: 'rejected' },
      { pValue: 0.05, adjusted: 0.05, outcome: 'rejected' },
      { pValue: 0.2, adjusted: 0.2, outcome: 'not-rejected' },
      { pValue: 0.001, adjusted: 0.2, outcome: 'not-tested' },
    ]);
  });

  it('an infinite number of degrees of freedom means the normal distribution: 1.96 standard errors at 2.5 %', () => {
    const judged = { estimate: 1.959963984540054, standardError: 1, degreesOfFreedom: Number.POSITIVE_INFINITY };
    expect(minimumEffect(judged, { margin: 1e-9, better: 'higher' }).pValue).toBeCloseTo(0.025, 8);
  });
});

const judgements = fc.record({
  estimate: fc.double({ min: -5, max: 5, noNaN: true }),
  standardError: fc.double({ min: 0.05, max: 3, noNaN: true }),
  degreesOfFreedom: fc.double({ min: 1, max: 200, noNaN: true }),
});
const margins = fc.double({ min: 0.05, max: 4, noNaN: true });
const families = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 12 });

describe('powerOfT without limit of precision', () => {
  it('powerOfT with a known standard error is that of the normal distribution: one half at 1.96 standard errors, and the tail beyond', () => {
    const known = { standardError: 1, degreesOfFreedom: Number.POSITIVE_INFINITY };
    // The tail beyond -2 x 1.96 is 4.4e-5.
    expect(powerOfT(1.959963984540054, known)).toBeCloseTo(0.5 + 4.43e-5, 7);
    close(powerOfT(1.5, { ...known, degreesOfFreedom: 9e12 }), powerOfT(1.5, known), 1e-11);
    // 1.96 + 0.84, the usual sum of two normal quantiles, less what the far tail adds: pnorm(-4.7615) / dnorm(0.8416).
    close(smallestDetectable(known), 1.959963984540054 + 0.8416212335729143 - 3.43e-6, 2e-9);
  });
});

describe('decisions: properties', () => {
  it('equivalence below 5 % goes with a 90 % interval inside the margins', () => {
    fc.assert(
      fc.property(judgements, margins, (judged, margin) => {
        const { pValue, interval } = equivalence(judged, { margin });
        fc.pre(Math.abs(pValue - 0.05) > 1e-9);
        expect(interval.lower > -margin && interval.upper < margin).toBe(pValue < 0.05);
      }),
    );
  });

  it('turned round the direction swaps, and either direction is no surer than the better of the two', () => {
    fc.assert(
      fc.property(judgements, margins, (judged, margin) => {
        const turned = { ...judged, estimate: -judged.estimate };
        const lower = minimumEffect(judged, { margin, better: 'lower' }).pValue;
        close(minimumEffect(turned, { margin, better: 'higher' }).pValue, lower, 1e-12);
        const either = minimumEffect(judged, { margin, better: 'either' }).pValue;
        expect(either).toBeGreaterThanOrEqual(
          Math.min(lower, minimumEffect(judged, { margin, better: 'higher' }).pValue) - 1e-15,
        );
        expect(either).toBeLessThanOrEqual(1);
        close(minimumEffect(turned, { margin, better: 'either' }).pValue, either, 1e-12);
      }),
    );
  });

  it('all decisions are free of the unit', () => {
    fc.assert(
      fc.property(judgements, margins, fc.constantFrom(1e-3, 7, 1e4), (judged, margin, unit) => {
        const scaled = { ...judged, estimate: judged.estimate * unit, standardError: judged.standardError * unit };
        close(equivalence(scaled, { margin: margin * unit }).pValue, equivalence(judged, { margin }).pValue, 1e-9);
        close(smallestDetectable(scaled) / unit, smallestDetectable(judged), 1e-9);
      }),
      { numRuns: 20 },
    );
  });

  it('powerOfT is 5 % without an effect, grows with it, and is the stated power at the smallest detectable effect', () => {
    fc.assert(
      fc.property(judgements, fc.double({ min: 0.1, max: 0.99, noNaN: true }), (precision, power) => {
        close(powerOfT(0, precision), 0.05, 1e-9);
        const smallest = smallestDetectable(precision, { power });
        close(powerOfT(-smallest, precision), power, 1e-8);
        expect(powerOfT(smallest * 1.1, precision)).toBeGreaterThan(power);
      }),
      { numRuns: 30 },
    );
  });

  it('adjusted p-values lie from p to count times p, whatever the order: p <= holm <= count times p', () => {
    fc.assert(
      fc.property(families, (p) => {
        const adjusted = holm(p);
        for (const [at, one] of p.entries()) {
          expect(adjusted[at]).toBeGreaterThanOrEqual(one - 1e-15);
          expect(adjusted[at]).toBeLessThanOrEqual(Math.min(1, one * p.length) + 1e-15);
        }
        expect([...holm([...p].reverse())].reverse()).toEqual(adjusted);
      }),
    );
  });

  it('confidenceCurve rises to 1 at the estimate and is even about it', () => {
    fc.assert(
      fc.property(judgements, (judged) => {
        const curve = confidenceCurve(judged, { points: 41, reach: 6 });
        expect(curve[20]).toEqual({ value: judged.estimate + 0, pValue: 1, level: 0 });
        for (let step = 1; step <= 20; step++) {
          expect(curve[20 + step]?.pValue ?? 9).toBeLessThan(curve[19 + step]?.pValue ?? -9);
          close(curve[20 - step]?.pValue, curve[20 + step]?.pValue ?? Number.NaN, 1e-8);
        }
      }),
      { numRuns: 30 },
    );
  });
});

describe('decisions refuse', () => {
  const judged = { estimate: 1, standardError: 1, degreesOfFreedom: 5 };
  it.each([
    ['a margin of zero', () => equivalence(judged, { margin: 0 }), 'out-of-range', /positive margin, got 0/],
    [
      'a negative margin',
      () => minimumEffect(judged, { margin: -1, better: 'lower' }),
      'out-of-range',
      /positive margin/,
    ],
    [
      'no standard error',
      () => minimumEffect({ ...judged, standardError: 0 }, { margin: 1, better: 'lower' }),
      'out-of-range',
      /standard error/,
    ],
    [
      'no degrees of freedom',
      () => equivalence({ ...judged, degreesOfFreedom: 0 }, { margin: 1 }),
      'out-of-range',
      /degree of freedom/,
    ],
    [
      'NaN',
      () => minimumEffect({ ...judged, estimate: Number.NaN }, { margin: 1, better: 'either' }),
      'not-finite',
      /estimate/,
    ],
    ['an even number of points', () => confidenceCurve(judged, { points: 4 }), 'out-of-range', /odd number/],
    ['p above 1', () => holm([0.1, 1.1]), 'out-of-range', /got 1.1 at index 1/],
    ['p of NaN', () => holm([Number.NaN]), 'out-of-range', /got NaN/],
    ['p below 0 in a sequence', () => fixedSequence([-0.1]), 'out-of-range', /got -0.1/],
    ['alpha of 1', () => fixedSequence([0.1], { alpha: 1 }), 'out-of-range', /level/],
    ['a power no larger than chance', () => smallestDetectable(judged, { power: 0.05 }), 'out-of-range', /power above/],
    ['an infinite effect', () => powerOfT(Number.POSITIVE_INFINITY, judged), 'not-finite', /effect/],
  ])('%s', (_case, call, fault, message) => {
    expect(call).toThrow(
      expect.objectContaining({ name: 'StatisticsError', fault, message: expect.stringMatching(message) }),
    );
  });
});
