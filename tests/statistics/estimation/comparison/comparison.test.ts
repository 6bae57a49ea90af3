import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type BlockOfGroups,
  blocked,
  type MeanComparison,
  paired,
  pooled,
  welch,
} from '../../../../src/statistics/estimation/comparison/index.js';

interface Answer {
  estimate: number;
  standardError: number;
  degreesOfFreedom: number;
  statistic: number;
  pValue: number;
  lower: number;
  upper: number;
}
interface Reference {
  groups: {
    name: string;
    x: number[];
    y: number[];
    level: number;
    welch: Answer;
    pooled: Answer;
  }[];
  paired: {
    name: string;
    differences: number[];
    level: number;
    paired: Answer;
  }[];
  blocked: {
    name: string;
    blocks: BlockOfGroups[];
    level: number;
    blocked: Answer;
  }[];
}

const file = new URL('../../../reference/comparison/comparison.json', import.meta.url);
const reference: Reference = JSON.parse(readFileSync(file, 'utf8'));

function closeTo(found: number, wanted: number, relative = 1e-11): void {
  expect(Math.abs(found - wanted)).toBeLessThanOrEqual(relative * Math.max(Math.abs(wanted), 1e-3));
}

function agrees(found: MeanComparison<string>, wanted: Answer): void {
  closeTo(found.estimate, wanted.estimate);
  closeTo(found.standardError, wanted.standardError);
  closeTo(found.degreesOfFreedom, wanted.degreesOfFreedom);
  closeTo(found.statistic, wanted.statistic);
  expect(Math.abs(found.pValue / wanted.pValue - 1)).toBeLessThan(1e-9);
  closeTo(found.interval.lower, wanted.lower);
  closeTo(found.interval.upper, wanted.upper);
}

describe('comparison against R', () => {
  it.each(reference.groups)('welch and pooled give R t.test: $name', ({ x, y, level, ...answers }) => {
    agrees(welch(x, y, { level }), answers.welch);
    agrees(pooled(x, y, { level }), answers.pooled);
  });

  it.each(reference.paired)('paired gives R t.test: $name', ({ differences, level, paired: answer }) => {
    agrees(paired(differences, { level }), answer);
  });

  it.each(reference.blocked)('blocked gives R lm with block: $name', ({ blocks, level, blocked: answer }) => {
    agrees(blocked(blocks, { level }), answer);
  });
});

describe('comparison by hand', () => {
  const treated = [-3.1, -1.8, -2.6, -2.2];
  const untreated = [-1.2, -2.0, -0.6, -1.4];

  it('welch(four, four): difference -1.125, standard error 0.40078, 5.992 degrees of freedom', () => {
    const result = welch(treated, untreated);
    expect(result.estimate).toBeCloseTo(-1.125, 12);
    // Sums of squares 0.9075 and 1.02, each over 3 and then over 4.
    expect(result.standardError).toBeCloseTo(Math.sqrt(0.9075 / 12 + 1.02 / 12), 12);
    expect(result.degreesOfFreedom).toBeCloseTo(5.992, 2);
    expect(result.n).toEqual({ x: 4, y: 4 });
  });

  it('blocked(pairs) is paired(differences)', () => {
    const pairs = treated.map((value, at) => ({
      x: [value],
      y: [untreated[at] ?? Number.NaN],
    }));
    const inPairs = paired(treated.map((value, at) => value - (untreated[at] ?? Number.NaN)));
    agrees(blocked(pairs), {
      ...inPairs,
      lower: inPairs.interval.lower,
      upper: inPairs.interval.upper,
    });
  });

  it('blocked(one block) is pooled', () => {
    const groups = { x: [1, 4, 9], y: [2, 3] };
    const flat = pooled(groups.x, groups.y);
    agrees(blocked([groups]), {
      ...flat,
      lower: flat.interval.lower,
      upper: flat.interval.upper,
    });
  });

  it('blocked with equal block means is not troubled by how far the blocks lie apart', () => {
    const near = blocked([
      { x: [1, 2], y: [4] },
      { x: [3], y: [5, 6] },
    ]);
    const far = blocked([
      { x: [1, 2], y: [4] },
      { x: [1003], y: [1005, 1006] },
    ]);
    closeTo(far.estimate, near.estimate);
    closeTo(far.standardError, near.standardError);
  });
});

const value = fc.double({ min: -100, max: 100, noNaN: true });
const sample = fc.array(value, { minLength: 2, maxLength: 9 });

/** Groups whose spread is well above rounding, and rarely of equal size. */
const groups = fc.record({ x: sample, y: sample }).filter(({ x, y }) => spreadOf(x) > 0.01 && spreadOf(y) > 0.01);

function spreadOf(values: readonly number[]): number {
  return Math.max(...values) - Math.min(...values);
}

describe.each([
  ['welch', welch],
  ['pooled', pooled],
  ['blocked', (x: number[], y: number[]) => blocked([{ x, y }])],
])('%s: properties', (_name, compare) => {
  it('a shift of both groups changes nothing; a shift of x moves the estimate and the interval by as much', () => {
    fc.assert(
      fc.property(groups, value, ({ x, y }, shift) => {
        const start = compare(x, y);
        const together = compare(
          x.map((one) => one + shift),
          y.map((one) => one + shift),
        );
        expect(Math.abs(together.estimate - start.estimate)).toBeLessThan(1e-10);
        expect(Math.abs(together.standardError - start.standardError)).toBeLessThan(1e-10);
        const alone = compare(
          x.map((one) => one + shift),
          y,
        );
        expect(Math.abs(alone.interval.lower - start.interval.lower - shift)).toBeLessThan(1e-8);
      }),
    );
  });

  it('a change of scale stretches estimate and interval and leaves t and p', () => {
    fc.assert(
      fc.property(groups, fc.double({ min: 1e-3, max: 1e3, noNaN: true }), ({ x, y }, scale) => {
        const start = compare(x, y);
        const scaled = compare(
          x.map((one) => one * scale),
          y.map((one) => one * scale),
        );
        expect(Math.abs(scaled.interval.upper / scale - start.interval.upper)).toBeLessThan(1e-8);
        expect(Math.abs(scaled.statistic - start.statistic)).toBeLessThan(
          1e-8 * Math.max(1, Math.abs(start.statistic)),
        );
      }),
    );
  });

  it('swapping the groups flips the sign, order inside them is irrelevant, and p lies in (0, 1]', () => {
    fc.assert(
      fc.property(groups, ({ x, y }) => {
        const start = compare(x, y);
        const swapped = compare([...y].reverse(), [...x].reverse());
        expect(Math.abs(swapped.estimate + start.estimate)).toBeLessThan(1e-11);
        expect(Math.abs(swapped.interval.lower + start.interval.upper)).toBeLessThan(1e-8);
        expect(swapped.n).toEqual({ x: y.length, y: x.length });
        expect(start.pValue > 0 && start.pValue <= 1).toBe(true);
      }),
    );
  });

  it('the interval includes zero exactly when p exceeds one less the level', () => {
    fc.assert(
      fc.property(groups, ({ x, y }) => {
        const { interval, pValue } = compare(x, y);
        fc.pre(Math.abs(pValue - 0.05) > 1e-9);
        expect(interval.lower <= 0 && interval.upper >= 0).toBe(pValue > 0.05);
      }),
    );
  });
});

describe('comparison refuses', () => {
  it.each([
    ['welch with one value', () => welch([1], [1, 2]), 'too-few', /at least 2 values in x, got 1/],
    ['welch without variation', () => welch([0.3, 0.3, 0.3], [1, 1]), 'no-variation', /standard error above zero/],
    ['welch with NaN', () => welch([1, 2], [1, Number.NaN]), 'not-finite', /finite numbers in y, got NaN at index 1/],
    ['welch at level 95', () => welch([1, 2], [1, 3], { level: 95 }), 'out-of-range', /level between 0 and 1/],
    ['pooled with two values', () => pooled([1], [2]), 'too-few', /at least 3 values in all/],
    ['pooled without a group', () => pooled([], [1, 2]), 'too-few', /at least 1 value in x/],
    ['paired with one pair', () => paired([1]), 'too-few', /at least 2 values in differences/],
    [
      'paired with differences equal but for rounding',
      () => paired([0.3 - 0.2, 0.4 - 0.3]),
      'no-variation',
      /above zero/,
    ],
    [
      'blocked without a shared block',
      () =>
        blocked([
          { x: [1], y: [] },
          { x: [], y: [2] },
        ]),
      'too-few',
      /both groups/,
    ],
    ['blocked with one pair', () => blocked([{ x: [1], y: [2] }]), 'too-few', /more units than blocks/],
    [
      'blocked with equal differences',
      () =>
        blocked([
          { x: [1], y: [2] },
          { x: [5], y: [6] },
        ]),
      'no-variation',
      /zero/,
    ],
    [
      'blocked with infinity',
      () => blocked([{ x: [1, 2], y: [Number.POSITIVE_INFINITY] }]),
      'not-finite',
      /y of block 0/,
    ],
  ])('%s', (_case, call, fault, message) => {
    expect(call).toThrow(
      expect.objectContaining({
        name: 'StatisticsError',
        fault,
        message: expect.stringMatching(message),
      }),
    );
  });
});
