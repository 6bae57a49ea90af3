import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  hodgesLehmann,
  hodgesLehmannPaired,
  ratioOfMeans,
  trimmed,
  welch,
} from '../../../../src/statistics/estimation/comparison/index.js';
import {
  rankSumChances,
  signedRankChances,
} from '../../../../src/statistics/estimation/comparison/rank-distributions.js';
import type { Interval } from '../../../../src/statistics/interval.js';

interface Limits {
  estimate: number;
  lower: number;
  upper: number;
}
interface Reference {
  groups: {
    name: string;
    x: number[];
    y: number[];
    level: number;
    cut: number;
    equal: Limits & { degreesOfFreedom: number };
    unequal: Limits & { degreesOfFreedom: number };
    trimmed: Limits & { standardError: number; degreesOfFreedom: number; statistic: number; pValue: number };
    shift: Limits;
  }[];
  untied: (Limits & { x: number[]; y: number[]; level: number })[];
  paired: { name: string; differences: number[]; level: number; centre: Limits }[];
  rankSum: { nx: number; ny: number; chances: number[] };
  signedRank: { n: number; chances: number[] };
}

const file = new URL('../../../reference/robust-comparison/robust-comparison.json', import.meta.url);
const reference: Reference = JSON.parse(readFileSync(file, 'utf8'));

function close(found: number | undefined, wanted: number, relative = 1e-11): void {
  expect(Math.abs((found ?? Number.NaN) - wanted)).toBeLessThanOrEqual(relative * Math.max(1, Math.abs(wanted)));
}

function agrees(found: { estimate: number; interval?: Interval }, wanted: Limits): void {
  close(found.estimate, wanted.estimate);
  close(found.interval?.lower, wanted.lower);
  close(found.interval?.upper, wanted.upper);
}

describe('robust comparison against R', () => {
  it.each(reference.groups)('ratioOfMeans ends where uniroot finds the t statistic at its quantile: $name', (one) => {
    agrees(ratioOfMeans(one.x, one.y, { level: one.level, spread: 'equal' }), one.equal);
    const unequal = ratioOfMeans(one.x, one.y, { level: one.level });
    agrees(unequal, one.unequal);
    close(unequal.degreesOfFreedom, one.unequal.degreesOfFreedom);
  });

  it.each(reference.groups)('trimmed gives the formulas of Yuen written out: $name', (one) => {
    const found = trimmed(one.x, one.y, { level: one.level, cut: one.cut });
    agrees(found, one.trimmed);
    for (const fact of ['standardError', 'degreesOfFreedom', 'statistic', 'pValue'] as const) {
      close(found[fact], one.trimmed[fact]);
    }
  });

  it.each(reference.groups)('hodgesLehmann takes the places of qwilcox: $name', (one) => {
    agrees(hodgesLehmann(one.x, one.y, { level: one.level, inversion: 'p-value' }), one.shift);
  });

  it.each(reference.untied)('hodgesLehmann is wilcox.test without ties', (one) => {
    agrees(hodgesLehmann(one.x, one.y, { level: one.level, inversion: 'p-value' }), one);
  });

  it.each(reference.paired)('hodgesLehmannPaired takes the places of qsignrank: $name', (one) => {
    agrees(hodgesLehmannPaired(one.differences, { level: one.level, inversion: 'p-value' }), one.centre);
  });

  it('rankSumChances(4, 7) and signedRankChances(9) are dwilcox and dsignrank', () => {
    const { rankSum, signedRank } = reference;
    for (const [at, chance] of rankSum.chances.entries()) close(rankSumChances(4, 7)[at], chance, 1e-15);
    for (const [at, chance] of signedRank.chances.entries()) close(signedRankChances(9)[at], chance, 1e-15);
    expect([...rankSumChances(7, 4)]).toEqual([...rankSumChances(4, 7)]);
  });
});

describe('robust comparison by hand', () => {
  it('ratioOfMeans gives no interval where the mean of y cannot be distinguished from zero', () => {
    const { estimate, interval } = ratioOfMeans([4, 5, 6], [-1, 1, 3]);
    expect(estimate).toBe(5);
    expect(interval).toBeUndefined();
  });

  it('trimmed(five, five) at a fifth cuts one value off each end', () => {
    // Kept 2, 3, 4 and 1, 2, 2; Winsorised squares 4 and 1.2; d = 4/6 and 1.2/6.
    const found = trimmed([1, 2, 3, 4, 50], [0, 1, 2, 2, 3]);
    expect(found.estimate).toBeCloseTo(3 - 5 / 3, 12);
    expect(found.standardError).toBeCloseTo(Math.sqrt(4 / 6 + 1.2 / 6), 12);
    expect(found.n).toEqual({ x: 5, y: 5 });
  });

  it('hodgesLehmann(three, three) has no interval at 95 %, and at 90 % all nine differences', () => {
    const [x, y] = [
      [1, 2, 3],
      [10, 12, 15],
    ];
    expect(hodgesLehmann(x, y).interval).toBeUndefined();
    expect(hodgesLehmann(x, y, { level: 0.9 }).interval).toEqual({ level: 0.9, lower: -14, upper: -7 });
  });

  it('hodgesLehmannPaired by the p-value: five pairs have no interval at 95 % (2/32), six have (2/64)', () => {
    const options = { inversion: 'p-value' } as const;
    expect(hodgesLehmannPaired([1, 2, 3, 4, 5], options).interval).toBeUndefined();
    expect(hodgesLehmannPaired([1, 2, 3, 4, 5, 6], options).interval).toEqual({ level: 0.95, lower: 1, upper: 6 });
  });

  // Each of the 2^n signs is as likely: the most extreme statistic has the mid-p value 2^-n / 2 at either end.
  it('hodgesLehmannPaired by the mid-p value: 1/16 for four pairs, so none at 95 %; 1/32 for five pairs, so all', () => {
    expect(hodgesLehmannPaired([1, 2, 3, 4]).interval).toBeUndefined();
    expect(hodgesLehmannPaired([1, 2, 3, 4], { level: 0.93 }).interval).toEqual({ level: 0.93, lower: 1, upper: 4 });
    expect(hodgesLehmannPaired([1, 2, 3, 4, 5]).interval).toEqual({ level: 0.95, lower: 1, upper: 5 });
  });

  it('hodgesLehmann(four, four) ends at the second difference from either end by the mid-p value, at the first by the p-value', () => {
    // 1 and 1 of 70 choices of ranks come first: 1 + 1/2 is below 1.75 = 70 of 2.5 %, but 1 + 1 is not.
    const [x, y] = [
      [0.1, 1.3, 2.6, 4],
      [10, 20, 31, 43],
    ] as const;
    const sorted = x.flatMap((one) => y.map((other) => one - other)).sort((a, b) => a - b);
    expect(hodgesLehmann(x, y).interval).toMatchObject({ lower: sorted[1], upper: sorted[14] });
    expect(hodgesLehmann(x, y, { inversion: 'p-value' }).interval).toMatchObject({
      lower: sorted[0],
      upper: sorted[15],
    });
  });

  const drawnOut = (nx: number, ny: number) => {
    const x = Array.from({ length: nx }, (_, at) => at * 1.001 + Math.sin(at));
    const y = Array.from({ length: ny }, (_, at) => at * 0.97 + Math.cos(3 * at));
    return { x, y, sorted: Float64Array.from(x.flatMap((one) => y.map((other) => one - other))).sort() };
  };

  // R 4.2.2: qwilcox(0.025, nx, ny) is the place of the lower limit.
  it.each([
    [51, 50, 987],
    [15, 400, 2109],
    [1, 3000, 75],
  ])(
    'hodgesLehmann of %i against %i values counts exactly and ends at difference %i, as qwilcox of R',
    (nx, ny, place) => {
      const { x, y, sorted } = drawnOut(nx, ny);
      const found = hodgesLehmann(x, y, { inversion: 'p-value' });
      expect(found.distribution).toBe('exact');
      expect(found.interval?.lower).toBe(sorted[place - 1]);
    },
  );

  it('hodgesLehmann beyond 100,000 differences is one place more cautious than R, qwilcox(0.025, 320, 320) = 46617', () => {
    const { x, y, sorted } = drawnOut(320, 320);
    const found = hodgesLehmann(x, y, { inversion: 'p-value' });
    expect(found.distribution).toBe('normal-approximation');
    expect(found.interval?.lower).toBe(sorted[46_615]);
    // Half as cautious at the step: 51200 less 1.96 times the standard deviation 2338.8 is 46616.1, so it is the 46617th.
    expect(hodgesLehmann(x, y).interval?.lower).toBe(sorted[46_616]);
  });
});

const value = fc.integer({ min: -60, max: 60 }).map((tenths) => tenths / 10);
const sample = fc.array(value, { minLength: 5, maxLength: 9 }).filter((values) => new Set(values).size > 4);

describe('robust comparison: properties', () => {
  it('trimmed with cut 0 is welch', () => {
    fc.assert(
      fc.property(sample, sample, (x, y) => {
        const [none, plain] = [trimmed(x, y, { cut: 0 }), welch(x, y)];
        close(none.standardError, plain.standardError);
        close(none.pValue, plain.pValue);
      }),
    );
  });

  it.each([
    ['trimmed', (x: number[], y: number[]) => trimmed(x, y)],
    ['hodgesLehmann', (x: number[], y: number[]) => hodgesLehmann(x, y)],
  ])('%s: shift of x moves, scale stretches, swap turns, order is irrelevant', (_name, compare) => {
    const spread = (values: number[]) => new Set([...values].sort((a, b) => a - b).slice(1, -1)).size > 1;
    fc.assert(
      fc.property(sample.filter(spread), sample.filter(spread), value, (x, y, shift) => {
        const start = compare(x, y);
        close(
          compare(
            x.map((one) => one + shift),
            y,
          ).interval?.lower,
          (start.interval?.lower ?? 0) + shift,
          1e-9,
        );
        close(
          compare(
            x.map((one) => one * 3),
            y.map((one) => one * 3),
          ).interval?.upper,
          3 * (start.interval?.upper ?? 0),
          1e-9,
        );
        close(compare([...y].reverse(), x).estimate, -start.estimate, 1e-9);
        close(compare(y, [...x].reverse()).interval?.lower, -(start.interval?.upper ?? 0), 1e-9);
      }),
    );
  });

  it('hodgesLehmann holds a shift exactly when the shifted groups have zero in their interval', () => {
    fc.assert(
      fc.property(sample, sample, value, (x, y, shift) => {
        const held = hodgesLehmann(x, y).interval;
        const zero = hodgesLehmann(
          x.map((one) => one * 10 - shift * 10),
          y.map((one) => one * 10),
        ).interval;
        const margin = Math.min(Math.abs((held?.lower ?? 0) - shift), Math.abs((held?.upper ?? 0) - shift));
        fc.pre(margin > 1e-9);
        expect((held?.lower ?? 0) <= shift && shift <= (held?.upper ?? 0)).toBe(
          (zero?.lower ?? 0) <= 0 && 0 <= (zero?.upper ?? 0),
        );
      }),
    );
  });

  it('ratioOfMeans: scale of y divides, order is irrelevant', () => {
    const positive = fc
      .array(fc.integer({ min: 40, max: 60 }), { minLength: 4, maxLength: 8 })
      .filter((values) => new Set(values).size > 2);
    fc.assert(
      fc.property(positive, positive, (x, y) => {
        const start = ratioOfMeans(x, y);
        const found = ratioOfMeans(
          [...x].reverse(),
          y.map((one) => one * 4),
        );
        close(found.estimate, start.estimate / 4);
        close(found.interval?.upper, (start.interval?.upper ?? Number.NaN) / 4);
      }),
    );
  });
});

describe('robust comparison refuses', () => {
  it.each([
    [
      'ratioOfMeans over a zero mean',
      () => ratioOfMeans([1, 2], [-1, 1]),
      'out-of-range',
      /mean of y that is not zero/,
    ],
    ['ratioOfMeans of equal values', () => ratioOfMeans([1, 1], [2, 2]), 'no-variation', /vary/],
    [
      'trimmed with nothing left',
      () => trimmed([1, 2, 3], [1, 2, 3], { cut: 0.4 }),
      'too-few',
      /x after trimming, got 1/,
    ],
    ['trimmed at a half', () => trimmed([1, 2], [1, 2], { cut: 0.5 }), 'out-of-range', /cut from 0 to below 0.5/],
    ['trimmed of equal values', () => trimmed([1, 1], [2, 2]), 'no-variation', /above zero/],
    ['hodgesLehmann of nothing', () => hodgesLehmann([], [1]), 'too-few', /in x/],
    ['hodgesLehmannPaired of NaN', () => hodgesLehmannPaired([1, Number.NaN]), 'not-finite', /index 1/],
    ['hodgesLehmann at level 1', () => hodgesLehmann([1], [2], { level: 1 }), 'out-of-range', /level/],
  ])('%s', (_case, call, fault, message) => {
    expect(call).toThrow(
      expect.objectContaining({ name: 'StatisticsError', fault, message: expect.stringMatching(message) }),
    );
  });
});
