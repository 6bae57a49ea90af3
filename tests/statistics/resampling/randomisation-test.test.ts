import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blocked } from '../../../src/statistics/estimation/comparison/index.js';
import type { Inversion } from '../../../src/statistics/numerics/inversion.js';
import {
  type AllocatedGroups,
  countAllocations,
  randomisationTest,
  smallestPossibleP,
  type TreatedAndUntreated,
} from '../../../src/statistics/resampling/index.js';
import { centredBlocks } from '../../../src/statistics/resampling/randomisation/centred-blocks.js';
import { hasAtMost } from '../../../src/statistics/resampling/randomisation/count-allocations.js';
import { drawnAllocations } from '../../../src/statistics/resampling/randomisation/drawn-allocations.js';

interface Reference {
  cases: {
    name: string;
    response: number[];
    treated: number[];
    block: number[];
    pValue: number;
    shifts: number[];
    shiftedP: number[];
  }[];
}

const file = new URL('../../reference/randomisation/randomisation.json', import.meta.url);
const reference: Reference = JSON.parse(readFileSync(file, 'utf8'));

function inBlocks(response: readonly number[], treated: readonly number[], block: readonly number[]): AllocatedGroups {
  const blocks = [...new Set(block)].map((name) => {
    const of = (group: number) => response.filter((_, at) => block[at] === name && treated[at] === group);
    return { treated: of(1), untreated: of(0) };
  });
  const [first] = blocks;
  return blocks.length === 1 && first ? { kind: 'complete', ...first } : { kind: 'blocked', blocks };
}

const treated = [-3.1, -1.8, -2.6, -2.2];
const untreated = [-1.2, -2.0, -0.6, -1.4];
const eight: AllocatedGroups = { kind: 'complete', treated, untreated };

/** Every way to choose so many of the items, by counting through the bit patterns. */
function choicesOf(items: number, chosen: number): boolean[][] {
  const patterns = Array.from({ length: 2 ** items }, (_, bits) =>
    Array.from({ length: items }, (_, at) => ((bits >> at) & 1) === 1),
  );
  return patterns.filter((pattern) => pattern.filter(Boolean).length === chosen);
}

/** The slow and literal test: weighted differences of means inside blocks for each allocation, after taking off the shift. */
function literalP(blocks: readonly TreatedAndUntreated[], shift: number) {
  const taken = blocks.map((block) => ({
    treated: block.treated.map((value) => value - shift),
    untreated: block.untreated,
  }));
  const allocations = taken
    .map((block) => {
      const values = [...block.treated, ...block.untreated];
      return choicesOf(values.length, block.treated.length).map((pattern) => ({
        treated: values.filter((_, at) => pattern[at]),
        untreated: values.filter((_, at) => !pattern[at]),
      }));
    })
    .reduce<TreatedAndUntreated[][]>(
      (all, choices) => all.flatMap((begun) => choices.map((next) => [...begun, next])),
      [[]],
    );
  const observed = Math.abs(weightedDifference(taken));
  const differences = allocations.map((allocation) => Math.abs(weightedDifference(allocation)));
  const share = (isExtreme: (difference: number) => boolean) =>
    differences.filter(isExtreme).length / differences.length;
  const pValue = share((difference) => difference >= observed - 1e-9);
  return { pValue, midPValue: (pValue + share((difference) => difference > observed + 1e-9)) / 2 };
}

function weightedDifference(blocks: readonly TreatedAndUntreated[]): number {
  const weights = blocks.map((block) => 1 / (1 / block.treated.length + 1 / block.untreated.length));
  const differences = blocks.map((block) => meanOf(block.treated) - meanOf(block.untreated));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return differences.reduce((sum, difference, at) => sum + difference * (weights[at] ?? Number.NaN), 0) / total;
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

describe('randomisationTest against R', () => {
  it.each(reference.cases)('randomisationTest gives the exact p of $name', (one) => {
    const result = randomisationTest(inBlocks(one.response, one.treated, one.block), { seed: 1 });
    expect(Math.abs(result.pValue / one.pValue - 1)).toBeLessThan(1e-10);
    expect(result.computation.kind).toBe('exact');
  });

  it.each(reference.cases)(
    'randomisationTest after taking a shift off the treated gives the p of combn: $name',
    (one) => {
      for (const [at, shift] of one.shifts.entries()) {
        const shifted = one.response.map((value, unit) => value - shift * (one.treated[unit] ?? Number.NaN));
        const { pValue } = randomisationTest(inBlocks(shifted, one.treated, one.block), { seed: 1 });
        expect(Math.abs(pValue - (one.shiftedP[at] ?? Number.NaN))).toBeLessThan(1e-12);
      }
    },
  );

  it.each(reference.cases)('the interval holds just those shifts that combn does not reject: $name', (one) => {
    const groups = inBlocks(one.response, one.treated, one.block);
    const { interval } = randomisationTest(groups, { seed: 1, inversion: 'p-value' });
    for (const [at, shift] of one.shifts.entries()) {
      const held = interval !== undefined && interval.lower <= shift && shift <= interval.upper;
      expect([shift, held]).toEqual([shift, (one.shiftedP[at] ?? Number.NaN) > 0.05]);
    }
  });
});

describe('randomisationTest by hand', () => {
  it('randomisationTest(four, four): 4 of 70 allocations are as extreme, so p = 0.0571 and the interval by the p-value includes zero', () => {
    const result = randomisationTest(eight, { seed: 1, inversion: 'p-value' });
    expect(result.pValue).toBe(4 / 70);
    expect(result.estimate).toBeCloseTo(-1.125, 12);
    expect(result.computation).toEqual({ kind: 'exact', allocations: 70 });
    expect(result.n).toEqual({ treated: 4, untreated: 4 });
    expect(result.interval?.upper).toBeGreaterThan(0);
    // Two as extreme (the mirror is the other) and two beyond: 3/70 is below 0.05, so that this interval leaves zero out.
    expect(result.midPValue).toBe(3 / 70);
    expect(randomisationTest(eight, { seed: 1 }).interval?.upper).toBeLessThan(0);
  });

  it('randomisationTest(two, eight): the most extreme allocation alone gives 1/45', () => {
    const groups: AllocatedGroups = { kind: 'complete', treated: [10, 11], untreated: [0, 1, 2, 3, 4, 5, 6, 7] };
    const result = randomisationTest(groups, { seed: 1 });
    expect(result.pValue).toBe(1 / 45);
    expect(result.smallestP).toBe(1 / 45);
  });

  it('randomisationTest(three, three) cannot reach 95 %, gives no interval, and says 0.1', () => {
    const groups: AllocatedGroups = { kind: 'complete', treated: [1, 2, 3], untreated: [10, 11, 12] };
    const result = randomisationTest(groups, { seed: 1 });
    expect(result.interval).toBeUndefined();
    expect(result.smallestP).toBe(0.1);
    // The mid-p value of the most extreme allocation is just 0.05, which is not enough; to reject it would keep 90 % only.
    expect(result.midPValue).toBe(0.05);
    // At 90 % the two extreme allocations are just enough: p = 0.1 rejects.
    expect(randomisationTest(groups, { seed: 1, level: 0.9, inversion: 'p-value' }).interval).toBeDefined();
    expect(randomisationTest(groups, { seed: 1, level: 0.9 }).attainedLevel).toBeCloseTo(0.9, 12);
  });

  it('randomisationTest of two against two at 60 %: the limits are the inner ends, worked by hand', () => {
    // Treated 0, 1, untreated 4, 6: s = -4.5. Besides s and its mirror there are four allocations, in two mirrored pairs,
    // all with b = 0, so their intervals are s -/+ a with |a| = 0.5 and 1.5: p falls from 6/6 to 4/6 to 2/6.
    const groups: AllocatedGroups = { kind: 'complete', treated: [0, 1], untreated: [4, 6] };
    const inverted = (level: number) => randomisationTest(groups, { seed: 1, level, inversion: 'p-value' }).interval;
    const wide = inverted(0.6);
    expect(wide?.lower).toBeCloseTo(-6, 12);
    expect(wide?.upper).toBeCloseTo(-3, 12);
    const narrow = inverted(0.3);
    expect(narrow?.lower).toBeCloseTo(-5, 12);
    expect(narrow?.upper).toBeCloseTo(-4, 12);
    // The mid-p value falls from 5/6 to 3/6 to 1/6.
    expect(inverted(0.4)?.upper).toBeCloseTo(-3, 12);
    const halved = randomisationTest(groups, { seed: 1, level: 0.4 });
    expect(halved.interval?.upper).toBeCloseTo(-4, 12);
    expect(halved.attainedLevel).toBeCloseTo(1 / 3, 12);
  });

  // With 2^4 = 16 signs and every block its own mirror, the smallest mid-p value is half of 2/16, whatever the data.
  it('randomisationTest of four pairs has no 95 % interval of either kind, whatever the data; two blocks of four have one', () => {
    const pairs = (differences: readonly number[]): AllocatedGroups => {
      return { kind: 'blocked', blocks: differences.map((one) => ({ treated: [one], untreated: [0] })) };
    };
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 999 }), { minLength: 4, maxLength: 4 }), (differences) => {
        for (const inversion of ['mid-p', 'p-value'] as const) {
          const { interval, midPValue, smallestP } = randomisationTest(pairs(differences), { seed: 1, inversion });
          expect({ interval, midPValue, smallestP }).toEqual({
            interval: undefined,
            midPValue: 1 / 16,
            smallestP: 1 / 8,
          });
        }
      }),
      { numRuns: 20 },
    );
    const block = { treated: [1, 2.5], untreated: [7, 9.1] };
    const blocksOfFour = { kind: 'blocked', blocks: [block, block] } as const;
    expect(randomisationTest(blocksOfFour, { seed: 1 }).attainedLevel).toBeCloseTo(34 / 36, 12);
    expect(randomisationTest(blocksOfFour, { seed: 1, inversion: 'p-value' }).interval).toBeUndefined();
  });

  it('intervals by the mid-p value hold a constant shift in the attained level of all allocations: 66 of 70', () => {
    // The same eight responses under each allocation that might have been, with no effect to be found.
    const responses = [3.1, 1.87, 2.6, 2.29, 1.2, 2.03, 0.6, 1.41];
    for (const [inversion, wanted] of [
      ['mid-p', 66],
      ['p-value', 68],
    ] as const) {
      let held = 0;
      let attained: number | undefined;
      for (const pattern of choicesOf(8, 4)) {
        const groups = {
          treated: responses.filter((_, at) => pattern[at]),
          untreated: responses.filter((_, at) => !pattern[at]),
        };
        const { interval, attainedLevel } = randomisationTest({ kind: 'complete', ...groups }, { seed: 1, inversion });
        if (interval && interval.lower <= 0 && 0 <= interval.upper) held++;
        attained = attainedLevel;
      }
      expect(held).toBe(wanted);
      expect(attained).toBeCloseTo(wanted / 70, 12);
    }
  });

  it('randomisationTest counts ties that rounding would break: one decimal, many equal differences', () => {
    const result = randomisationTest(
      { kind: 'complete', treated: [0.1, 0.2, 0.3], untreated: [0.6, 0.1, 0.2, 0.3] },
      { seed: 1 },
    );
    const whole = randomisationTest({ kind: 'complete', treated: [1, 2, 3], untreated: [6, 1, 2, 3] }, { seed: 1 });
    expect(result.pValue).toBe(whole.pValue);
  });

  it('randomisationTest by clusters is the test of their means', () => {
    const clusters = randomisationTest(
      {
        kind: 'clustered',
        treated: [[-3, -3.2], [-1.8], [-2.5, -2.6, -2.7], [-2.2]],
        untreated: untreated.map((mean) => [mean - 1, mean + 1]),
      },
      { seed: 1 },
    );
    expect(clusters).toEqual({
      ...randomisationTest(eight, { seed: 1 }),
      design: 'clustered',
      estimate: clusters.estimate,
      interval: clusters.interval,
    });
    expect(clusters.pValue).toBe(4 / 70);
  });

  it('randomisationTest ignores a block that lacks a group', () => {
    const pairs = [0, 1, 2, 3, 4, 5].map((at) => ({ treated: [at * at], untreated: [at + 2] }));
    const alone = randomisationTest({ kind: 'blocked', blocks: pairs }, { seed: 1 });
    const more = randomisationTest(
      { kind: 'blocked', blocks: [...pairs, { treated: [50], untreated: [] }] },
      { seed: 1 },
    );
    expect(more).toEqual({ ...alone, n: { treated: 7, untreated: 6 } });
  });

  it('randomisationTest with responses that differ between groups only gives the difference as its interval', () => {
    const { interval } = randomisationTest(
      { kind: 'complete', treated: [1, 1, 1, 1], untreated: [3, 3, 3, 3] },
      { seed: 1 },
    );
    expect(interval?.lower).toBeCloseTo(-2, 12);
    expect(interval?.upper).toBeCloseTo(-2, 12);
  });
});

describe('countAllocations and smallestPossibleP', () => {
  it.each([
    [3, 3, 20n, 0.1],
    [4, 4, 70n, 2 / 70],
    [5, 5, 252n, 2 / 252],
    [6, 6, 924n, 2 / 924],
    [2, 8, 45n, 1 / 45],
    [1, 1, 2n, 1],
  ])('%i against %i: %s allocations, smallest p %f', (inTreated, inUntreated, count, p) => {
    const design = { kind: 'complete', treated: inTreated, untreated: inUntreated } as const;
    expect(countAllocations(design)).toBe(count);
    expect(smallestPossibleP(design)).toBeCloseTo(p, 15);
  });

  it.each([
    [3, 0.25],
    [4, 0.125],
    [5, 0.0625],
    [6, 0.03125],
  ])('%i pairs: smallest p %f', (pairs, p) => {
    const blocks = Array.from({ length: pairs }, () => ({ treated: 1, untreated: 1 }));
    expect(smallestPossibleP({ kind: 'blocked', blocks })).toBe(p);
  });

  it('countAllocations multiplies over blocks, and is exact where a double is not', () => {
    const block = { treated: 1, untreated: 2 };
    expect(countAllocations({ kind: 'blocked', blocks: [block, block, { treated: 4, untreated: 0 }] })).toBe(9n);
    expect(smallestPossibleP({ kind: 'blocked', blocks: [block, block] })).toBe(1 / 9);
    // The central binomial coefficient of 100, from Pascal's triangle by hand calculator and in every table.
    expect(countAllocations({ kind: 'clustered', treated: 50, untreated: 50 })).toBe(100891344545564193334812497256n);
  });

  it('hasAtMost(limit, design) says what countAllocations counts, at the limit and one below', () => {
    const sizes = fc.record({ treated: fc.nat(7), untreated: fc.nat(7) });
    fc.assert(
      fc.property(fc.array(sizes, { maxLength: 4 }), (all) => {
        const design = { kind: 'blocked', blocks: all } as const;
        const count = Number(countAllocations(design));
        expect([hasAtMost(count, design), hasAtMost(count - 1, design)]).toEqual([true, false]);
      }),
    );
  });

  it('hasAtMost of a hundred thousand units a group answers at once', () => {
    expect(hasAtMost(1e6, { kind: 'complete', treated: 1e5, untreated: 1e5 })).toBe(false);
  });

  it('countAllocations refuses half a unit', () => {
    expect(() => countAllocations({ kind: 'complete', treated: 0.5, untreated: 1 })).toThrow(/whole counts/);
  });
});

const value = fc.integer({ min: -40, max: 40 }).map((tenths) => tenths / 10);
const block = fc.record({
  treated: fc.array(value, { minLength: 1, maxLength: 4 }),
  untreated: fc.array(value, { minLength: 1, maxLength: 3 }),
});
const blocks = fc.array(block, { minLength: 1, maxLength: 2 }).filter((all) => all.some(varies));

function varies({ treated: some, untreated: others }: TreatedAndUntreated): boolean {
  return new Set([...some, ...others]).size > 1;
}

function mapped(
  all: readonly TreatedAndUntreated[],
  change: (value: number, treated: boolean) => number,
): TreatedAndUntreated[] {
  return all.map((one) => ({
    treated: one.treated.map((before) => change(before, true)),
    untreated: one.untreated.map((before) => change(before, false)),
  }));
}

const tested = (all: readonly TreatedAndUntreated[], level = 0.8, inversion: Inversion = 'mid-p') =>
  randomisationTest({ kind: 'blocked', blocks: all }, { seed: 1, level, inversion });

describe('randomisationTest: properties', () => {
  it('p and estimate are those of the literal enumeration, and p is in [smallest, 1]', () => {
    fc.assert(
      fc.property(blocks, (all) => {
        const result = tested(all);
        expect(result.estimate).toBeCloseTo(weightedDifference(all), 10);
        expect(result.pValue).toBeCloseTo(literalP(all, 0).pValue, 12);
        expect(result.midPValue).toBeCloseTo(literalP(all, 0).midPValue, 12);
        expect(result.pValue).toBeGreaterThanOrEqual(result.smallestP - 1e-15);
        expect(result.pValue).toBeLessThanOrEqual(1);
      }),
    );
  });

  it.each(['p-value', 'mid-p'] as const)(
    'the limits are where the literal %s crosses: not rejected just inside, rejected just outside',
    (inversion) => {
      const literal = (all: readonly TreatedAndUntreated[], shift: number) =>
        literalP(all, shift)[inversion === 'p-value' ? 'pValue' : 'midPValue'];
      fc.assert(
        fc.property(blocks, (all) => {
          const { interval, smallestP, estimate } = tested(all, 0.8, inversion);
          if (interval === undefined) {
            expect(literal(all, estimate - 1e6)).toBeGreaterThan(0.2 - 1e-12);
            expect(smallestP).toBeLessThanOrEqual(1);
            return;
          }
          for (const outside of [interval.lower - 1e-6, interval.upper + 1e-6]) {
            expect(literal(all, outside)).toBeLessThanOrEqual(0.2 + 1e-12);
          }
          for (const inside of [interval.lower + 1e-6, interval.upper - 1e-6]) {
            if (interval.upper - interval.lower > 2e-6) expect(literal(all, inside)).toBeGreaterThan(0.2 - 1e-12);
          }
        }),
        { numRuns: 60 },
      );
    },
  );

  it('the interval is absent exactly when the smallest p, or half of it for the mid-p value, cannot reject', () => {
    fc.assert(
      fc.property(blocks, fc.constantFrom(0.5, 0.8, 0.9, 0.95, 0.99), (all, level) => {
        const strict = tested(all, level, 'p-value');
        expect(strict.interval === undefined).toBe(strict.smallestP > 1 - level + 1e-12);
        const { interval, smallestP, attainedLevel } = tested(all, level, 'mid-p');
        expect(interval === undefined).toBe(smallestP / 2 >= 1 - level - 1e-12);
        if (attainedLevel !== undefined) {
          // No step of the design lies nearer to the level, and the p-value keeps at least the level.
          expect(Math.abs(attainedLevel - level)).toBeLessThanOrEqual(smallestP / 2 + 1e-12);
          expect(strict.attainedLevel ?? 1).toBeGreaterThanOrEqual(Math.max(level - 1e-12, attainedLevel));
        }
      }),
    );
  });

  it('the estimate is the least-squares coefficient of group given block', () => {
    fc.assert(
      fc.property(blocks, (all) => {
        const enough = [...all, { treated: [0, 1.3], untreated: [2] }];
        const fit = blocked(enough.map((one) => ({ x: one.treated, y: one.untreated })));
        expect(tested(enough).estimate).toBeCloseTo(fit.estimate, 10);
      }),
    );
  });

  it('a shift of the treated moves estimate and interval; a shift of all changes nothing', () => {
    fc.assert(
      fc.property(blocks, value, (all, shift) => {
        const start = tested(all);
        fc.pre(varied(mapped(all, (before, isTreated) => Math.round(1e6 * (before + (isTreated ? shift : 0))))));
        const alone = tested(mapped(all, (before, isTreated) => before + (isTreated ? shift : 0)));
        expect(alone.estimate).toBeCloseTo(start.estimate + shift, 10);
        if (start.interval) expect(alone.interval?.lower).toBeCloseTo(start.interval.lower + shift, 8);
        const together = tested(mapped(all, (before) => before + shift));
        expect(together.pValue).toBe(start.pValue);
        if (start.interval) expect(together.interval?.upper).toBeCloseTo(start.interval.upper, 8);
      }),
    );
  });

  it('a change of scale stretches the interval and leaves p', () => {
    fc.assert(
      fc.property(blocks, fc.constantFrom(-3, -0.5, 0.01, 7, 1e6), (all, scale) => {
        const start = tested(all);
        const scaled = tested(mapped(all, (before) => before * scale));
        expect(scaled.pValue).toBe(start.pValue);
        if (start.interval) {
          const end = scale > 0 ? scaled.interval?.upper : scaled.interval?.lower;
          expect((end ?? Number.NaN) / scale).toBeCloseTo(start.interval.upper, 8);
        }
      }),
    );
  });

  it('swapping the groups flips the sign and leaves p; order of units and blocks is irrelevant', () => {
    fc.assert(
      fc.property(blocks, (all) => {
        const start = tested(all);
        const swapped = tested(
          all.map((one) => ({ treated: [...one.untreated].reverse(), untreated: one.treated })).reverse(),
        );
        expect(swapped.estimate).toBeCloseTo(-start.estimate, 10);
        expect(swapped.pValue).toBe(start.pValue);
        if (start.interval) expect(swapped.interval?.lower).toBeCloseTo(-start.interval.upper, 8);
      }),
    );
  });
});

function varied(all: readonly TreatedAndUntreated[]): boolean {
  return all.some(varies);
}

describe('randomisationTest by drawing', () => {
  it.each([
    ['two of five', 2],
    ['three of five', 3],
  ])(
    'drawnAllocations takes each set of %s alike: chi-square of 20,000 below the 99.99 % point 33.7',
    (_name, chosen) => {
      // Powers of two, so that the sum tells which units were drawn.
      const powers = [1, 2, 4, 8, 16];
      const ready = centredBlocks([{ treated: powers.slice(0, chosen), untreated: powers.slice(chosen) }]);
      const { sums } = drawnAllocations(ready.blocks, 20_000, 6);
      const counts = new Map<number, number>();
      for (const sum of sums.slice(1)) counts.set(Math.round(sum * 10), (counts.get(Math.round(sum * 10)) ?? 0) + 1);
      expect(counts.size).toBe(10);
      const statistic = [...counts.values()].reduce((sum, count) => sum + (count - 2000) ** 2 / 2000, 0);
      expect(statistic).toBeLessThan(33.7);
    },
  );

  const [plants] = reference.cases;
  const groups = inBlocks(plants?.response ?? [], plants?.treated ?? [], plants?.block ?? []);

  it('drawn p and limits lie within five of their own standard errors of the exact ones', () => {
    const exact = randomisationTest(groups, { seed: 1 });
    for (const seed of [1, 2, 3, 4, 5]) {
      const drawn = randomisationTest(groups, { seed, exactUpTo: 0, draws: 9_999 });
      if (drawn.computation.kind !== 'monte-carlo') throw new Error('not drawn');
      expect(Math.abs(drawn.pValue - exact.pValue)).toBeLessThan(5 * drawn.computation.pValueStandardError);
      const { lower, upper } = drawn.computation.limitStandardErrors ?? { lower: Number.NaN, upper: Number.NaN };
      expect(Math.abs((drawn.interval?.lower ?? 0) - (exact.interval?.lower ?? 9))).toBeLessThan(5 * lower);
      expect(Math.abs((drawn.interval?.upper ?? 0) - (exact.interval?.upper ?? 9))).toBeLessThan(5 * upper);
      expect(Math.max(lower, upper)).toBeLessThan(0.05);
    }
  });

  it('p by drawing is a whole number of (draws + 1)ths, never 0, and the same for the same seed', () => {
    const apart: AllocatedGroups = {
      kind: 'complete',
      treated: Array.from({ length: 15 }, (_, at) => at),
      untreated: Array.from({ length: 20 }, (_, at) => 100 + at),
    };
    const drawn = randomisationTest(apart, { seed: 7, draws: 999 });
    expect(drawn.pValue).toBe(1 / 1000);
    expect(drawn.smallestP).toBe(1 / 1000);
    expect(drawn.computation).toMatchObject({ kind: 'monte-carlo', seed: 7, draws: 999 });
    expect(randomisationTest(apart, { seed: 7, draws: 999 })).toEqual(drawn);
    expect(randomisationTest(apart, { seed: 8, draws: 999 }).interval).not.toEqual(drawn.interval);
  });

  it('drawing in unequal blocks agrees with all allocations', () => {
    const cars = reference.cases.at(-1);
    const inCarburettors = inBlocks(cars?.response ?? [], cars?.treated ?? [], cars?.block ?? []);
    const exact = randomisationTest(inCarburettors, { seed: 1, level: 0.9 });
    const drawn = randomisationTest(inCarburettors, { seed: 1, level: 0.9, exactUpTo: 10, draws: 19_999 });
    expect(Math.abs(drawn.pValue - exact.pValue)).toBeLessThan(0.0015);
    expect(Math.abs((drawn.interval?.upper ?? 0) - (exact.interval?.upper ?? 9))).toBeLessThan(0.3);
  });
});

describe('randomisationTest refuses', () => {
  it.each([
    ['no shared block', () => tested([{ treated: [1], untreated: [] }]), 'too-few', /could have changed places/],
    [
      'an empty group',
      () => randomisationTest({ kind: 'complete', treated: [], untreated: [1, 2] }, { seed: 1 }),
      'too-few',
      /changed places/,
    ],
    [
      'equal responses',
      () => tested([{ treated: [0.1, 0.1], untreated: [0.1] }]),
      'no-variation',
      /responses that differ/,
    ],
    ['NaN', () => tested([{ treated: [Number.NaN], untreated: [1] }]), 'not-finite', /treated of block 0, got NaN/],
    [
      'an empty cluster',
      () => randomisationTest({ kind: 'clustered', treated: [[]], untreated: [[1]] }, { seed: 1 }),
      'too-few',
      /treated cluster 0/,
    ],
    ['level 1', () => tested([{ treated: [1], untreated: [2] }], 1), 'out-of-range', /level/],
    ['no draws', () => randomisationTest(eight, { seed: 1, exactUpTo: 1, draws: 0 }), 'out-of-range', /draws/],
    ['half a seed', () => randomisationTest(eight, { seed: 0.5, exactUpTo: 1 }), 'out-of-range', /seed/],
  ])('%s', (_case, call, fault, message) => {
    expect(call).toThrow(
      expect.objectContaining({ name: 'StatisticsError', fault, message: expect.stringMatching(message) }),
    );
  });
});
