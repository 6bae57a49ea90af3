import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { studentT } from '../../../src/statistics/distributions/index.js';
import { paired, welch } from '../../../src/statistics/estimation/comparison/index.js';
import { median } from '../../../src/statistics/estimation/summaries/median.js';
import {
  bcaLimits,
  percentileLimits,
  studentisedLimits,
} from '../../../src/statistics/resampling/bootstrap/bootstrap-limits.js';
import { clusterPools, estimateOf } from '../../../src/statistics/resampling/bootstrap/bootstrap-sample.js';
import { jackknifeInfluence } from '../../../src/statistics/resampling/bootstrap/jackknife-influence.js';
import { replicateQuantile } from '../../../src/statistics/resampling/bootstrap/replicate-quantile.js';
import { allReplicates, standardErrorOf } from '../../../src/statistics/resampling/bootstrap/replicates.js';
import { expandedTail, smallSampleWidth, stretch } from '../../../src/statistics/resampling/bootstrap/small-sample.js';
import { type BootstrapSample, bootstrap, bootstrapOf } from '../../../src/statistics/resampling/index.js';
import { integerBelow, randomStream } from '../../../src/statistics/resampling/random/index.js';

type Pair = [number, number];
interface Limits {
  level: number;
  estimate: number;
  standardError: number;
  percentile: Pair;
  bca: Pair;
  studentised: Pair;
  spread: number;
}
interface Reference {
  given: (Limits & {
    name: string;
    groups: (number | number[])[];
    replicates: number[];
    replicateErrors: number[];
    influences: number[];
  })[];
  drawn: (Limits & { name: string; weighing: 'clusters' | 'values'; treated: number[][]; untreated: number[][] })[];
  expanded: { n: number; tail: number }[];
  anorexiaWidth: { widening: number; degreesOfFreedom: number };
}

const file = new URL('../../reference/bootstrap/bootstrap.json', import.meta.url);
const reference: Reference = JSON.parse(readFileSync(file, 'utf8'));

function close(found: number, wanted: number, relative = 1e-11): void {
  expect(Math.abs(found - wanted)).toBeLessThanOrEqual(relative * Math.max(1, Math.abs(wanted)));
}

/** R has divided each influence by the size of its group, so each is given as a pool of one here. */
const poolsOfOne = (influences: readonly number[]) => influences.map((one) => Float64Array.of(one));

describe('bootstrap limits against boot.ci, from the same replicates', () => {
  it.each(reference.given)('percentileLimits, bcaLimits and studentisedLimits: $name', (one) => {
    const replicates = Float64Array.from(one.replicates);
    const tail = (1 - one.level) / 2;
    const percentile = percentileLimits(replicates, tail);
    close(percentile.lower.value, one.percentile[0]);
    close(percentile.upper.value, one.percentile[1]);
    const bca = bcaLimits(replicates, one.estimate, poolsOfOne(one.influences), tail);
    close(bca.lower.value, one.bca[0], 1e-9);
    close(bca.upper.value, one.bca[1], 1e-9);
    const deviations = replicates.map((replicate) => replicate - one.estimate);
    const errors = Float64Array.from(one.replicateErrors);
    const studentised = studentisedLimits(
      { deviations, standardErrors: errors },
      { estimate: one.estimate, standardError: one.standardError, tail },
    );
    close(studentised.lower.value, one.studentised[0]);
    close(studentised.upper.value, one.studentised[1]);
  });
});

describe('bootstrap, piece by piece', () => {
  const clusters = reference.drawn.at(-1);
  const pools = clusterPools(
    'test',
    { kind: 'two-groups', treated: clusters?.treated ?? [], untreated: clusters?.untreated ?? [] },
    'values',
  );

  it('jackknifeInfluence of single values is (n - 1)(t - t without it), as the influences given by R times their group sizes', () => {
    const [, two] = reference.given;
    const values = reference.drawn[1];
    const singles = clusterPools(
      'test',
      { kind: 'two-groups', treated: values?.treated ?? [], untreated: values?.untreated ?? [] },
      'clusters',
    );
    const found = singles.map((pool) => [...jackknifeInfluence(pool)].map((one) => one / pool.size.length));
    const flags = two?.groups.flat() ?? [];
    for (const [at, group] of [1, 0].entries()) {
      const wanted = (two?.influences ?? []).filter((_, unit) => flags[unit] === group);
      expect(found[at]?.length).toBe(wanted.length);
      for (const [unit, one] of wanted.entries()) close(found[at]?.[unit] ?? Number.NaN, one);
    }
  });

  it('jackknifeInfluence of clusters of unlike size is (n - 1) times what leaving one out takes off', () => {
    const lists = clusters?.treated ?? [];
    const meanOf = (some: number[][]) => some.flat().reduce((sum, value) => sum + value, 0) / some.flat().length;
    const [influence = new Float64Array()] = pools.map(jackknifeInfluence);
    for (const [at, one] of influence.entries()) {
      close(one, (lists.length - 1) * (meanOf(lists) - meanOf(lists.filter((_, other) => other !== at))), 1e-10);
    }
  });

  it('allReplicates gives the mean and the standard error of the clusters it drew, worked out from their values: the third thousand', () => {
    const { deviations, standardErrors } = allReplicates(pools, 5, 2_030);
    const stream = randomStream(5, 2);
    const groups = [clusters?.treated ?? [], clusters?.untreated ?? []];
    for (let draw = 0; draw < 30; draw++) {
      const [treated = [], untreated = []] = groups.map((group) =>
        group.map(() => group[integerBelow(stream, group.length)] ?? []),
      );
      const drawn = clusterPools('test', { kind: 'two-groups', treated, untreated }, 'values');
      close(deviations[2_000 + draw] ?? Number.NaN, estimateOf(drawn) - estimateOf(pools), 1e-10);
      close(standardErrors[2_000 + draw] ?? Number.NaN, standardErrorOf(drawn), 1e-10);
    }
  });

  it('standardErrorOf the data is the root of the variance that R was given', () => {
    close(standardErrorOf(pools), clusters?.standardError ?? Number.NaN);
  });
});

describe('bootstrap against boot, each with its own draws', () => {
  it.each(reference.drawn)('bootstrap lies within five Monte Carlo errors of boot.ci on 19,999 draws: $name', (one) => {
    const sample: BootstrapSample =
      one.untreated.length > 0
        ? { kind: 'two-groups', treated: one.treated, untreated: one.untreated }
        : { kind: 'one-group', clusters: one.treated };
    for (const method of ['percentile', 'bca', 'studentised'] as const) {
      const { level, weighing } = one;
      const found = bootstrap(sample, { seed: 11, method, draws: 19_999, level, weighing, smallSample: 'plain' });
      const { lower, upper } = found.monteCarlo.limitStandardErrors;
      close(found.estimate, one.estimate);
      // Two independent sets of draws differ by sqrt(2) Monte Carlo errors; both errors must be small to mean anything.
      expect(Math.abs(found.interval.lower - one[method][0])).toBeLessThan(5 * Math.SQRT2 * lower);
      expect(Math.abs(found.interval.upper - one[method][1])).toBeLessThan(5 * Math.SQRT2 * upper);
      expect(Math.max(lower, upper)).toBeLessThan(0.06 * one.spread);
      expect(Math.abs(found.standardError / one.spread - 1)).toBeLessThan(0.03);
    }
  });
});

const treated = [[-3.1], [-1.8], [-2.6], [-2.2]];
const untreated = [[-1.2], [-2.0], [-0.6], [-1.4]];
const eight: BootstrapSample = { kind: 'two-groups', treated, untreated };
const methods = ['percentile', 'bca', 'studentised'] as const;

describe('bootstrap by hand', () => {
  it('bootstrap of two clusters 0 and 1 draws 0, 1/2, 1 with chances 1/4, 1/2, 1/4', () => {
    const result = bootstrap(
      { kind: 'one-group', clusters: [[0], [1]] },
      { seed: 3, method: 'percentile', level: 0.6, smallSample: 'plain' },
    );
    expect(result.estimate).toBe(0.5);
    expect(result.interval).toEqual({ level: 0.6, lower: 0, upper: 1 });
    expect(result.standardError).toBeCloseTo(Math.sqrt(1 / 8), 2);
    expect(
      bootstrap(
        { kind: 'one-group', clusters: [[0], [1]] },
        { seed: 3, method: 'percentile', level: 0.4, smallSample: 'plain' },
      ).interval,
    ).toEqual({ level: 0.4, lower: 0.5, upper: 0.5 });
  });

  it('bootstrap weighing clusters takes 3, weighing values 2.5, from clusters [1, 1, 2, 2] and [4.5] and their like', () => {
    const clusters = [[1, 1, 2, 2], [4.5], [3, 3]];
    expect(bootstrap({ kind: 'one-group', clusters }, { seed: 1 }).estimate).toBeCloseTo(3, 12);
    expect(bootstrap({ kind: 'one-group', clusters }, { seed: 1, weighing: 'values' }).estimate).toBeCloseTo(
      16.5 / 7,
      12,
    );
  });

  it('bootstrap in strata weighs differences by nt nc / (nt + nc) clusters', () => {
    const strata = [
      { treated: [[1], [3]], untreated: [[0], [1]] },
      { treated: [[5], [6], [8], [9]], untreated: [[2], [4], [4], [2]] },
    ];
    const { estimate, n } = bootstrap({ kind: 'stratified', strata }, { seed: 1 });
    expect(estimate).toBeCloseTo((1 * 1.5 + 2 * 4) / 3, 12);
    expect(n).toEqual({ treated: 6, untreated: 6 });
  });

  it('strata that lie far apart do not widen the interval: whole strata are not exchanged', () => {
    const near = { treated: [[1], [3], [2]], untreated: [[0], [1], [2]] };
    const far = { treated: [[1001], [1003], [1002]], untreated: [[1000], [1001], [1002]] };
    const { interval, estimate } = bootstrap(
      { kind: 'stratified', strata: [near, far] },
      { seed: 1, method: 'percentile' },
    );
    expect(estimate).toBeCloseTo(1, 9);
    expect(interval.upper - interval.lower).toBeLessThan(5);
  });

  it('standardError tends to that of the t methods times sqrt((n - 1) / n)', () => {
    const { standardError } = bootstrap(eight, { seed: 5, draws: 40_000 });
    const plain = welch(treated.flat(), untreated.flat()).standardError;
    expect(Math.abs(standardError / (plain * Math.sqrt(3 / 4)) - 1)).toBeLessThan(0.02);
  });

  it('replicateQuantile takes order statistics at whole places and normal-scale points between', () => {
    const sorted = Float64Array.of(1, 2, 3, 4, 5, 6, 7, 8, 9);
    expect(replicateQuantile(sorted, 0.3).value).toBe(3);
    // Half way between the 5th and 6th of ten parts: symmetric about none, so a little below 5.5.
    const between = replicateQuantile(sorted, 0.55).value;
    expect(between).toBeGreaterThan(5.49);
    expect(between).toBeLessThan(5.5);
    expect(() => replicateQuantile(sorted, 0.05)).toThrow(/needs more draws/);
  });
});

const influencesOf = (sample: BootstrapSample) => clusterPools('test', sample, 'clusters').map(jackknifeInfluence);

describe('bootstrap with few clusters', () => {
  it('smallSampleWidth of anorexia, FT against Cont, makes the standard error and degrees of freedom of t.test', () => {
    const anorexia = reference.drawn[1];
    const groups = { treated: anorexia?.treated ?? [], untreated: anorexia?.untreated ?? [] };
    const found = smallSampleWidth(influencesOf({ kind: 'two-groups', ...groups }));
    close(found.widening, reference.anorexiaWidth.widening);
    close(found.degreesOfFreedom, reference.anorexiaWidth.degreesOfFreedom);
  });

  it('expandedTail of a mean is pnorm of the t quantile times sqrt(n / (n - 1))', () => {
    for (const { n, tail } of reference.expanded) {
      const clusters = Array.from({ length: n }, (_, at) => [Math.sin(at)]);
      const found = expandedTail(smallSampleWidth(influencesOf({ kind: 'one-group', clusters })), 0.025);
      expect(Math.abs(found / tail - 1)).toBeLessThan(1e-10);
    }
  });

  it('smallSampleWidth over strata: sqrt 2 for groups of two, and at most all degrees of freedom together', () => {
    // Four groups of two, each with variance 1/2 of its mean's: (4 v)^2 / (4 v^2 / 3) - 2 = 10, but there are only 4.
    const alike = { treated: [[0], [1]], untreated: [[5], [4]] };
    const even = smallSampleWidth(influencesOf({ kind: 'stratified', strata: [alike, alike] }));
    expect(even.widening).toBeCloseTo(Math.SQRT2, 12);
    expect(even.degreesOfFreedom).toBe(4);
    // One group holds nearly all of the variance: 1 / (1 / 3) - 2 = 1, as its own.
    const far = { treated: [[0], [1e6]], untreated: [[5], [4]] };
    const uneven = smallSampleWidth(influencesOf({ kind: 'stratified', strata: [alike, far] }));
    expect(uneven.degreesOfFreedom).toBeCloseTo(1, 9);
  });

  it('percentile and bca limits lie stretch times as far from the estimate as plain ones, with Monte Carlo errors to match', () => {
    const factor = stretch(smallSampleWidth(influencesOf(eight)), 0.05);
    // Four against four: sqrt(4 / 3) of the replicates' errors, and Student's t for the normal 1.6449.
    const { degreesOfFreedom } = welch(treated.flat(), untreated.flat());
    expect(factor).toBeCloseTo((Math.sqrt(4 / 3) * studentT(degreesOfFreedom).upperQuantile(0.05)) / 1.6448536, 6);
    for (const method of ['percentile', 'bca'] as const) {
      const plain = bootstrap(eight, { seed: 5, method, level: 0.9, smallSample: 'plain' });
      const { interval, estimate, monteCarlo } = bootstrap(eight, { seed: 5, method, level: 0.9 });
      close(interval.lower - estimate, factor * (plain.interval.lower - estimate));
      close(interval.upper - estimate, factor * (plain.interval.upper - estimate));
      close(monteCarlo.limitStandardErrors.lower, factor * plain.monteCarlo.limitStandardErrors.lower);
    }
  });

  it('studentised limits are what they are without the correction', () => {
    const options = { seed: 5, method: 'studentised' } as const;
    expect(bootstrap(eight, options)).toEqual(bootstrap(eight, { ...options, smallSample: 'plain' }));
  });
});

describe.each(methods)('bootstrap, %s: properties', (method) => {
  const cluster = fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 1, maxLength: 3 });
  const pool = fc
    .array(cluster, { minLength: 7, maxLength: 9 })
    .filter((clusters) => new Set(clusters.map(String)).size > 5);
  const interval = (some: number[][], others: number[][]) =>
    bootstrap(
      { kind: 'two-groups', treated: some, untreated: others },
      { seed: 2, method, draws: 999, level: 0.8, weighing: 'values' },
    );

  it('the same seed gives the same answer; a shift of the treated moves it; scale stretches it', () => {
    fc.assert(
      fc.property(pool, pool, fc.integer({ min: -9, max: 9 }), (some, others, shift) => {
        const start = interval(some, others);
        expect(interval(some, others)).toEqual(start);
        const moved = interval(
          some.map((values) => values.map((one) => one + shift)),
          others,
        );
        close(moved.interval.lower, start.interval.lower + shift, 1e-9);
        const stretched = interval(
          some.map((values) => values.map((one) => one * 8)),
          others.map((values) => values.map((one) => one * 8)),
        );
        close(stretched.interval.upper, start.interval.upper * 8, 1e-9);
        expect(start.interval.lower).toBeLessThan(start.interval.upper);
      }),
      { numRuns: 15 },
    );
  });

  it('turning the values round turns the interval round', () => {
    fc.assert(
      fc.property(pool, pool, (some, others) => {
        const [start, turned] = [
          interval(some, others),
          interval(
            some.map((values) => values.map((one) => -one)),
            others.map((values) => values.map((one) => -one)),
          ),
        ];
        close(turned.estimate, -start.estimate, 1e-9);
        close(turned.interval.lower, -start.interval.upper, 1e-9);
      }),
      { numRuns: 15 },
    );
  });
});

describe('bootstrapOf', () => {
  it('bootstrapOf a mean agrees with bootstrap of the same clusters within Monte Carlo error', () => {
    const values = reference.drawn[0]?.treated.flat() ?? [];
    const mean = ([group = []]: readonly (readonly number[])[]) =>
      group.reduce((sum, value) => sum + value, 0) / group.length;
    const found = bootstrapOf([values], mean, { seed: 9, smallSample: 'plain' });
    const fast = bootstrap(
      { kind: 'one-group', clusters: values.map((value) => [value]) },
      { seed: 1, smallSample: 'plain' },
    );
    close(found.estimate, paired(values).estimate);
    expect(Math.abs(found.interval.lower - fast.interval.lower)).toBeLessThan(
      7 * fast.monteCarlo.limitStandardErrors.lower,
    );
    expect(Math.abs(found.interval.upper - fast.interval.upper)).toBeLessThan(
      7 * fast.monteCarlo.limitStandardErrors.upper,
    );
  });

  it('bootstrapOf with few units reads plain replicates farther out: as a plain one whose level is the expanded', () => {
    const values = reference.drawn[0]?.treated.flat() ?? [];
    const mean = ([group = []]: readonly (readonly number[])[]) =>
      group.reduce((sum, value) => sum + value, 0) / group.length;
    const ten = reference.expanded.find(({ n }) => n === 10)?.tail ?? Number.NaN;
    const found = bootstrapOf([values], mean, { seed: 9, method: 'bca' });
    const plain = bootstrapOf([values], mean, { seed: 9, method: 'bca', level: 1 - 2 * ten, smallSample: 'plain' });
    close(found.interval.lower, plain.interval.lower, 1e-9);
    close(found.interval.upper, plain.interval.upper, 1e-9);
    expect(found.interval.level).toBe(0.95);
  });

  it('bootstrapOf stays among the values that the statistic takes, and takes groups for alike that it never notices', () => {
    // The median of these stays 5 whichever one is left out, so that the jackknife sees no influence at all.
    const { interval } = bootstrapOf([[1, 4, 5, 5, 5, 5, 7]], ([values = []]) => median(values), {
      seed: 2,
      method: 'percentile',
    });
    expect(interval.lower).toBeGreaterThanOrEqual(1);
    expect(interval.upper).toBeLessThanOrEqual(7);
    expect(interval.lower).toBeLessThan(interval.upper);
  });

  it('bootstrapOf gives the statistic groups of the sizes it was given', () => {
    const sizes = new Set<string>();
    const statistic = (groups: readonly (readonly string[])[]) => {
      sizes.add(groups.map((group) => group.length).join());
      return groups.flat().filter((unit) => unit === 'a').length;
    };
    bootstrapOf(
      [
        ['a', 'b', 'a'],
        ['a', 'b'],
      ],
      statistic,
      { seed: 1, draws: 99, method: 'percentile', level: 0.5, smallSample: 'plain' },
    );
    expect([...sizes]).toEqual(['3,2']);
  });
});

describe('bootstrap refuses', () => {
  const pair = { treated: [[1]], untreated: [[2]] };
  it.each([
    [
      'a group of one cluster',
      () => bootstrap({ kind: 'two-groups', ...pair }, { seed: 1 }),
      'too-few',
      /2 clusters in treated, got 1.*pairs as one group/,
    ],
    [
      'pairs as strata',
      () => bootstrap({ kind: 'stratified', strata: [pair] }, { seed: 1 }),
      'too-few',
      /treated of stratum 0/,
    ],
    ['no strata', () => bootstrap({ kind: 'stratified', strata: [] }, { seed: 1 }), 'too-few', /1 stratum/],
    [
      'an empty cluster',
      () => bootstrap({ kind: 'one-group', clusters: [[1], []] }, { seed: 1 }),
      'too-few',
      /cluster 1/,
    ],
    [
      'NaN',
      () => bootstrap({ kind: 'one-group', clusters: [[1], [Number.NaN]] }, { seed: 1 }),
      'not-finite',
      /cluster 1/,
    ],
    [
      'equal clusters',
      () => bootstrap({ kind: 'one-group', clusters: [[1], [1], [1]] }, { seed: 1 }),
      'no-variation',
      /equal ones/,
    ],
    ['too few draws', () => bootstrap(eight, { seed: 1, draws: 19, method: 'percentile' }), 'too-few', /more draws/],
    ['no draws', () => bootstrap(eight, { seed: 1, draws: 0 }), 'out-of-range', /draws from 1/],
    ['level 1.5', () => bootstrap(eight, { seed: 1, level: 1.5 }), 'out-of-range', /level/],
    [
      'four pairs to studentise',
      () => bootstrap({ kind: 'one-group', clusters: [[1], [2], [4], [7]] }, { seed: 1, method: 'studentised' }),
      'too-few',
      // 4 of the 4^4 draws.
      /1\.6 % of draws take one cluster over and over/,
    ],
    [
      'draws without scatter',
      () =>
        bootstrap({ kind: 'one-group', clusters: [[1], [1], [1], [1], [1], [2]] }, { seed: 1, method: 'studentised' }),
      'no-variation',
      /over and over/,
    ],
    [
      'the far quantiles of three units a group',
      () =>
        bootstrapOf(
          [
            [1, 2, 4],
            [3, 5, 9],
          ],
          ([one = []]) => one[0] ?? 0,
          { seed: 1, draws: 999 },
        ),
      'too-few',
      /6\.8e-8 quantiles of the draws, and at least \d+ draws have them/,
    ],
    [
      'a statistic of NaN',
      () => bootstrapOf([[1, 2]], () => Number.NaN, { seed: 1 }),
      'not-finite',
      /finite for every draw/,
    ],
    ['a constant statistic', () => bootstrapOf([[1, 2, 3, 4, 5]], () => 3, { seed: 1 }), 'no-variation', /both sides/],
    ['one unit', () => bootstrapOf([[1]], () => 3, { seed: 1 }), 'too-few', /2 units in each group, got 1/],
  ])('%s', (_case, call, fault, message) => {
    expect(call).toThrow(
      expect.objectContaining({ name: 'StatisticsError', fault, message: expect.stringMatching(message) }),
    );
  });
});
