import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { noncentralT } from '../../../../src/statistics/distributions/noncentral-t.js';
import {
  glassDelta,
  glassDeltaOfGroups,
  hedgesG,
  hedgesGOfGroups,
  logResponseRatio,
  probabilityOfSuperiority,
  smallSampleCorrection,
} from '../../../../src/statistics/estimation/effect-size/index.js';
import type { Interval } from '../../../../src/statistics/interval.js';

interface Limits {
  estimate: number;
  lower: number;
  upper: number;
}
interface Case {
  name: string;
  x: number[];
  y: number[];
  level: number;
  difference: number;
  pooledSd: number;
  untreatedSd: number;
  hedgesG: Limits;
  standardisedByMetafor: number;
  glassDelta: Limits;
  superiority: Limits;
  logRatio?: Limits & { standardError: number };
}
interface Reference {
  cases: Case[];
  correction: { degreesOfFreedom: number; value: number }[];
}

const file = new URL('../../../reference/effect-size/effect-size.json', import.meta.url);
const reference: Reference = JSON.parse(readFileSync(file, 'utf8'));
const fromMeans = reference.cases.filter((one) => !one.name.includes('lm with block'));
const withRatio = reference.cases.filter((one) => one.logRatio !== undefined);

/** R's noncentral t, solved for its noncentrality, is good to about nine digits here. */
function agrees(found: { estimate: number; interval: Interval }, wanted: Limits, relative = 2e-9): void {
  const close = (value: number, target: number) =>
    expect(Math.abs(value - target)).toBeLessThanOrEqual(relative * Math.max(1, Math.abs(target)));
  close(found.estimate, wanted.estimate);
  close(found.interval.lower, wanted.lower);
  close(found.interval.upper, wanted.upper);
}

describe('effect sizes against R', () => {
  it.each(reference.cases)('hedgesG and glassDelta give the limits of pt(ncp): $name', (one) => {
    const { difference, pooledSd, untreatedSd, level } = one;
    const [n1, n2] = [one.x.length, one.y.length];
    agrees(hedgesG({ difference, pooledSd, n1, n2, level }), one.hedgesG);
    agrees(glassDelta({ difference, untreatedSd, treated: n1, untreated: n2, level }), one.glassDelta);
  });

  it.each(fromMeans)('hedgesGOfGroups and glassDeltaOfGroups are the same from the values: $name', (one) => {
    const g = hedgesGOfGroups(one.x, one.y, { level: one.level });
    agrees(g, one.hedgesG);
    expect(Math.abs(g.estimate / one.standardisedByMetafor - 1)).toBeLessThan(1e-12);
    agrees(glassDeltaOfGroups(one.x, one.y, { level: one.level }), one.glassDelta);
  });

  it.each(withRatio)('logResponseRatio gives metafor escalc ROM: $name', (one) => {
    const found = logResponseRatio(one.x, one.y, { level: one.level });
    agrees(found, one.logRatio as Limits, 1e-12);
    expect(Math.abs(found.standardError / (one.logRatio?.standardError ?? 0) - 1)).toBeLessThan(1e-12);
  });

  it.each(reference.cases)('probabilityOfSuperiority gives the roots that uniroot finds: $name', (one) => {
    agrees(probabilityOfSuperiority(one.x, one.y, { level: one.level }), one.superiority, 1e-10);
  });

  it.each(reference.correction)('smallSampleCorrection($degreesOfFreedom) is the ratio of gamma functions', (one) => {
    expect(Math.abs(smallSampleCorrection(one.degreesOfFreedom) / one.value - 1)).toBeLessThan(2e-14);
  });
});

describe('effect sizes by hand', () => {
  const treated = [-3.1, -1.8, -2.6, -2.2];
  const untreated = [-1.2, -2.0, -0.6, -1.4];

  it('smallSampleCorrection(2) and (4) in closed form: 1/sqrt(pi) and sqrt(2/pi)', () => {
    // Gamma(1) / Gamma(1/2), and Gamma(2) / (sqrt(2) Gamma(3/2)).
    expect(smallSampleCorrection(2)).toBeCloseTo(1 / Math.sqrt(Math.PI), 14);
    expect(smallSampleCorrection(4)).toBeCloseTo(Math.sqrt(2 / Math.PI), 14);
  });

  it('hedgesGOfGroups(four, four): -1.125 over sqrt(1.9275 / 6), times the correction for 6', () => {
    // Gamma(3) / (sqrt(3) Gamma(5/2)) = 2 / (sqrt(3) 0.75 sqrt(pi)).
    const correction = 2 / (Math.sqrt(3) * 0.75 * Math.sqrt(Math.PI));
    const { estimate } = hedgesGOfGroups(treated, untreated);
    expect(estimate).toBeCloseTo((-1.125 / Math.sqrt(1.9275 / 6)) * correction, 12);
  });

  it('the limits of hedgesG put the observed t at 2.5 % of either tail of the noncentral t', () => {
    const { interval, correction } = hedgesG({ difference: 1, pooledSd: 0.8, n1: 3, n2: 7 });
    const root = Math.sqrt(21 / 10);
    const t = (1 / 0.8) * root;
    expect(noncentralT(8, (interval.lower / correction) * root).upperTail(t)).toBeCloseTo(0.025, 9);
    expect(noncentralT(8, (interval.upper / correction) * root).lowerTail(t)).toBeCloseTo(0.025, 9);
  });

  it('probabilityOfSuperiority counts 15 of 16 pairs, and a tie as half', () => {
    expect(probabilityOfSuperiority(treated, untreated).estimate).toBe(15 / 16);
    expect(probabilityOfSuperiority([1, 2], [2, 3, 1]).estimate).toBe((1 + 0.5 + 1 + 0.5 + 1) / 6);
  });

  it('probabilityOfSuperiority gives the example printed with the R package SingleCaseES: 0.5973406 to 0.9860176', () => {
    // Printed from a root search that stops at 1e-4, so it can agree to four digits only.
    const { estimate, interval } = probabilityOfSuperiority([20, 20, 26, 25, 22, 23], [28, 25, 24, 27, 30, 30, 29]);
    expect(estimate).toBeCloseTo(0.9166667, 7);
    expect(Math.abs(interval.lower - 0.5973406)).toBeLessThan(5e-5);
    expect(Math.abs(interval.upper - 0.9860176)).toBeLessThan(5e-5);
  });

  it('probabilityOfSuperiority of groups wholly apart ends at 1 and still has width, in closed form for one against one', () => {
    // With h = 0 it is 1 - t = z^2 t, so t = 1 / (1 + z^2).
    const { interval } = probabilityOfSuperiority([1], [2]);
    expect(interval.upper).toBe(1);
    expect(interval.lower).toBeCloseTo(1 / (1 + 1.959963984540054 ** 2), 12);
  });

  it('logResponseRatio([8, 9, 10], [11, 12, 13, 12]) is ln(9/12) with variance 1/3/81 + (2/3)/4/144', () => {
    const { estimate, standardError } = logResponseRatio([8, 9, 10], [11, 12, 13, 12]);
    expect(estimate).toBeCloseTo(Math.log(0.75), 14);
    expect(standardError).toBeCloseTo(Math.sqrt(1 / 243 + 1 / 864), 14);
  });
});

/** Quarters, so that a shift neither makes nor breaks a tie. */
const value = fc.integer({ min: 4, max: 200 }).map((quarters) => quarters / 4);
const sample = fc.array(value, { minLength: 2, maxLength: 7 });
const groups = fc
  .record({ x: sample, y: sample })
  .filter(({ x, y }) => x.length + y.length > 4 && spreadOf(x) > 0.5 && spreadOf(y) > 0.5);

function spreadOf(values: readonly number[]): number {
  return Math.max(...values) - Math.min(...values);
}

function near(found: number, wanted: number): void {
  expect(Math.abs(found - wanted)).toBeLessThan(1e-7 * Math.max(1, Math.abs(wanted)));
}

type Sized = { readonly estimate: number; readonly interval: Interval };

describe.each<[string, (x: number[], y: number[]) => Sized]>([
  ['hedgesGOfGroups', hedgesGOfGroups],
  ['glassDeltaOfGroups', glassDeltaOfGroups],
  ['probabilityOfSuperiority', probabilityOfSuperiority],
  ['logResponseRatio', logResponseRatio],
])('%s: properties', (name, size) => {
  it('the interval holds the estimate; order is irrelevant; a change of scale changes nothing', () => {
    fc.assert(
      fc.property(groups, fc.constantFrom(0.01, 3, 1000), ({ x, y }, scale) => {
        const start = size(x, y);
        expect(start.interval.lower < start.interval.upper).toBe(true);
        expect(start.interval.lower <= start.estimate && start.estimate <= start.interval.upper).toBe(true);
        const scaled = size(
          [...x].reverse().map((one) => one * scale),
          y.map((one) => one * scale),
        );
        near(scaled.estimate, start.estimate);
        near(scaled.interval.lower, start.interval.lower);
      }),
      { numRuns: 40 },
    );
  });

  it(
    name === 'logResponseRatio' ? 'a shift brings the groups closer' : 'a shift of both groups changes nothing',
    () => {
      fc.assert(
        fc.property(groups, fc.constantFrom(2, 16, 64), ({ x, y }, shift) => {
          const start = size(x, y);
          const shifted = size(
            x.map((one) => one + shift),
            y.map((one) => one + shift),
          );
          if (name === 'logResponseRatio') {
            expect(Math.abs(shifted.estimate)).toBeLessThanOrEqual(Math.abs(start.estimate) + 1e-12);
          } else {
            near(shifted.estimate, start.estimate);
            near(shifted.interval.upper, start.interval.upper);
          }
        }),
        { numRuns: 40 },
      );
    },
  );
});

describe.each<[string, (x: number[], y: number[]) => Sized, (at: number) => number]>([
  ['hedgesGOfGroups', hedgesGOfGroups, (at) => -at],
  ['probabilityOfSuperiority', probabilityOfSuperiority, (at) => 1 - at],
  ['logResponseRatio', logResponseRatio, (at) => -at],
])('%s(y, x)', (_name, size, turned) => {
  it('turns estimate and interval round', () => {
    fc.assert(
      fc.property(groups, ({ x, y }) => {
        const [start, swapped] = [size(x, y), size(y, x)];
        near(swapped.estimate, turned(start.estimate));
        near(swapped.interval.lower, turned(start.interval.upper));
      }),
      { numRuns: 40 },
    );
  });
});

describe('effect sizes refuse', () => {
  const summary = { difference: 1, pooledSd: 1, n1: 3, n2: 4 };
  it.each([
    ['hedgesG without spread', () => hedgesG({ ...summary, pooledSd: 0 }), 'no-variation', /above zero, got 0/],
    ['hedgesG of three values', () => hedgesG({ ...summary, n1: 1, n2: 2 }), 'too-few', /2 degrees of freedom, got 1/],
    ['hedgesG of an empty group', () => hedgesG({ ...summary, n1: 0, n2: 9 }), 'too-few', /each group, got 0/],
    ['hedgesG of NaN', () => hedgesG({ ...summary, difference: Number.NaN }), 'not-finite', /finite difference/],
    ['hedgesG at level 0', () => hedgesG({ ...summary, level: 0 }), 'out-of-range', /level/],
    ['hedgesGOfGroups of equal values', () => hedgesGOfGroups([1, 1], [1, 1, 1]), 'no-variation', /above zero/],
    [
      'glassDeltaOfGroups with one untreated',
      () => glassDeltaOfGroups([1, 2], [1]),
      'too-few',
      /2 values in untreated/,
    ],
    ['glassDeltaOfGroups with equal untreated', () => glassDeltaOfGroups([1, 2], [3, 3]), 'no-variation', /above zero/],
    [
      'logResponseRatio of changes',
      () => logResponseRatio([-1, -2], [1, 2]),
      'out-of-range',
      /positive means, got -1.5/,
    ],
    ['logResponseRatio of equal values', () => logResponseRatio([2, 2], [1, 1]), 'no-variation', /vary/],
    ['probabilityOfSuperiority of nothing', () => probabilityOfSuperiority([], [1]), 'too-few', /in x, got 0/],
    [
      'probabilityOfSuperiority of infinity',
      () => probabilityOfSuperiority([Number.POSITIVE_INFINITY], [1]),
      'not-finite',
      /in x/,
    ],
  ])('%s', (_case, call, fault, message) => {
    expect(call).toThrow(
      expect.objectContaining({ name: 'StatisticsError', fault, message: expect.stringMatching(message) }),
    );
  });
});
