import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { normalPrior, type Prior, posteriorOfDifference } from '../../../../src/statistics/estimation/bayes/index.js';
import { welch } from '../../../../src/statistics/estimation/comparison/index.js';

interface Reference {
  cases: {
    name: string;
    estimate: number;
    standardError: number;
    degreesOfFreedom: number | 'infinite';
    priorMean: number;
    priorSd: number;
    margin: number;
    level: number;
    mean: number;
    standardDeviation: number;
    median: number;
    lower: number;
    upper: number;
    belowZero: number;
    belowMargin: number;
    aboveMargin: number;
  }[];
  scepticalSd: number;
}

const file = new URL('../../../reference/bayes/bayes.json', import.meta.url);
const reference: Reference = JSON.parse(readFileSync(file, 'utf8'));

function close(found: number | undefined, wanted: number, absolute = 1e-9): void {
  expect(Math.abs((found ?? Number.NaN) - wanted)).toBeLessThanOrEqual(absolute);
}

describe('posteriorOfDifference against R', () => {
  it.each(reference.cases)('posteriorOfDifference is what integrate finds: $name', (one) => {
    const degreesOfFreedom = one.degreesOfFreedom === 'infinite' ? Number.POSITIVE_INFINITY : one.degreesOfFreedom;
    const judged = { estimate: one.estimate, standardError: one.standardError, degreesOfFreedom };
    const prior: Prior = { kind: 'normal', mean: one.priorMean, standardDeviation: one.priorSd };
    const found = posteriorOfDifference(judged, { prior, margin: one.margin, level: one.level });
    close(found.mean, one.mean);
    close(found.standardDeviation, one.standardDeviation);
    close(found.median, one.median);
    close(found.interval.lower, one.lower);
    close(found.interval.upper, one.upper);
    close(found.probability.belowZero, one.belowZero);
    close(found.probability.belowMargin, one.belowMargin);
    close(found.probability.aboveMargin, one.aboveMargin);
  });

  it('normalPrior of a sceptic leaves 5 % beyond the margin: margin over qnorm(0.95)', () => {
    const prior = normalPrior({ kind: 'sceptical', margin: 2, probabilityBeyond: 0.05 });
    close(prior?.standardDeviation, reference.scepticalSd, 1e-12);
    expect(prior?.mean).toBe(0);
  });
});

const margin = 1;
const judgements = fc.record({
  estimate: fc.double({ min: -4, max: 4, noNaN: true }),
  standardError: fc.double({ min: 0.1, max: 3, noNaN: true }),
  degreesOfFreedom: fc.oneof(fc.double({ min: 1, max: 60, noNaN: true }), fc.constant(Number.POSITIVE_INFINITY)),
});
const sceptical: Prior = { kind: 'sceptical', margin, probabilityBeyond: 0.05 };

describe('posteriorOfDifference: properties', () => {
  it('with the reference prior the credible interval is the confidence interval, and the tail below zero half the p-value', () => {
    const comparison = welch([-3.1, -1.8, -2.6, -2.2, -2.9], [-1.2, -2.0, -0.6]);
    const found = posteriorOfDifference(comparison, { prior: { kind: 'reference' }, margin });
    close(found.interval.lower, comparison.interval.lower, 1e-12);
    close(found.interval.upper, comparison.interval.upper, 1e-12);
    close(found.probability.aboveZero, comparison.pValue / 2, 1e-12);
    close(found.median, comparison.estimate, 1e-12);
  });

  it('probabilities add up, and the sceptic stays between zero and the data', () => {
    fc.assert(
      fc.property(judgements, (judged) => {
        const found = posteriorOfDifference(judged, { prior: sceptical, margin });
        const { belowZero, aboveZero, belowMargin, aboveMargin, withinMargin } = found.probability;
        close(belowZero + aboveZero, 1, 1e-12);
        close(belowMargin + withinMargin + aboveMargin, 1, 1e-12);
        expect(belowMargin).toBeLessThanOrEqual(belowZero + 1e-12);
        const [low, high] = [Math.min(0, judged.estimate) - 1e-9, Math.max(0, judged.estimate) + 1e-9];
        expect((found.mean ?? Number.NaN) >= low && (found.mean ?? Number.NaN) <= high).toBe(true);
        expect(found.interval.lower).toBeLessThan(found.median);
        expect(found.median).toBeLessThan(found.interval.upper);
      }),
      { numRuns: 40 },
    );
  });

  it('turning data round turns the posterior round; the unit is free; a very wide prior is the reference prior', () => {
    fc.assert(
      fc.property(judgements, (judged) => {
        const start = posteriorOfDifference(judged, { prior: sceptical, margin });
        const turned = posteriorOfDifference({ ...judged, estimate: -judged.estimate }, { prior: sceptical, margin });
        close(turned.interval.lower, -start.interval.upper, 1e-8);
        close(turned.probability.belowMargin, start.probability.aboveMargin, 1e-9);
        const scaled = { ...judged, estimate: 1000 * judged.estimate, standardError: 1000 * judged.standardError };
        const inThousandths = posteriorOfDifference(scaled, {
          prior: { ...sceptical, margin: 1000 } as Prior,
          margin: 1000,
        });
        close(inThousandths.median / 1000, start.median, 1e-8);
        const wide: Prior = { kind: 'normal', mean: 0, standardDeviation: 1e5 };
        const plain = posteriorOfDifference(judged, { prior: { kind: 'reference' }, margin });
        close(
          posteriorOfDifference(judged, { prior: wide, margin }).probability.aboveMargin,
          plain.probability.aboveMargin,
          1e-4,
        );
      }),
      { numRuns: 25 },
    );
  });

  it('many degrees of freedom come to the conjugate answer', () => {
    const judged = { estimate: -2.5, standardError: 0.6, degreesOfFreedom: 1e9 };
    const exact = posteriorOfDifference(
      { ...judged, degreesOfFreedom: Number.POSITIVE_INFINITY },
      { prior: sceptical, margin },
    );
    const near = posteriorOfDifference(judged, { prior: sceptical, margin });
    close(near.mean, exact.mean ?? Number.NaN, 1e-7);
    close(near.probability.belowMargin, exact.probability.belowMargin, 1e-7);
  });

  it('leaves out the mean and the standard deviation that heavy tails do not have', () => {
    const of = (degreesOfFreedom: number) =>
      posteriorOfDifference(
        { estimate: 1, standardError: 1, degreesOfFreedom },
        { prior: { kind: 'reference' }, margin },
      );
    expect(of(1).mean).toBeUndefined();
    expect(of(2).mean).toBe(1);
    expect(of(2).standardDeviation).toBeUndefined();
    close(of(4).standardDeviation, Math.SQRT2, 1e-12);
  });
});

describe('posteriorOfDifference refuses', () => {
  const judged = { estimate: 1, standardError: 1, degreesOfFreedom: 5 };
  const reference_ = { prior: { kind: 'reference' }, margin: 1 } as const;
  it.each([
    ['a margin of zero', () => posteriorOfDifference(judged, { ...reference_, margin: 0 }), 'out-of-range', /margin/],
    [
      'no standard error',
      () => posteriorOfDifference({ ...judged, standardError: 0 }, reference_),
      'out-of-range',
      /standard error/,
    ],
    ['NaN', () => posteriorOfDifference({ ...judged, estimate: Number.NaN }, reference_), 'not-finite', /estimate/],
    ['level 1', () => posteriorOfDifference(judged, { ...reference_, level: 1 }), 'out-of-range', /level/],
    [
      'a prior without spread',
      () => normalPrior({ kind: 'normal', mean: 0, standardDeviation: 0 }),
      'out-of-range',
      /prior standard deviation/,
    ],
    [
      'a sceptic of 60 %',
      () => normalPrior({ kind: 'sceptical', margin: 1, probabilityBeyond: 0.6 }),
      'out-of-range',
      /0 and 0.5/,
    ],
    [
      'a prior in another unit',
      () => posteriorOfDifference({ ...judged, estimate: 1e6 }, { margin: 1, prior: sceptical }),
      'out-of-range',
      /its unit/,
    ],
  ])('%s', (_case, call, fault, message) => {
    expect(call).toThrow(
      expect.objectContaining({ name: 'StatisticsError', fault, message: expect.stringMatching(message) }),
    );
  });

  it('refuses a prior narrower than the normal range of numbers, which no panel can resolve', () => {
    const judged = { estimate: 1e-320, standardError: 1e200, degreesOfFreedom: 1e308 };
    const prior = { kind: 'sceptical', margin: 5e-324, probabilityBeyond: 0.1 } as const;
    expect(() => posteriorOfDifference(judged, { margin: 5e-324, prior })).toThrow(/like scale/);
  });
});
