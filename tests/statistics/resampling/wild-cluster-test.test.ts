import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blocked, paired, pooled } from '../../../src/statistics/estimation/comparison/index.js';
import { clusterPools } from '../../../src/statistics/resampling/bootstrap/bootstrap-sample.js';
import { type BootstrapSample, wildClusterTest } from '../../../src/statistics/resampling/index.js';
import { webbWeights } from '../../../src/statistics/resampling/wild-cluster/webb-weights.js';
import { wildP } from '../../../src/statistics/resampling/wild-cluster/wild-cluster-test.js';
import {
  wildClusters,
  wildFit,
  wildStatistics,
} from '../../../src/statistics/resampling/wild-cluster/wild-statistics.js';

interface Reference {
  cases: {
    name: string;
    strata: { treated: number[][]; untreated: number[][] }[];
    supposed: number;
    order: number[];
    weights: number[][];
    estimate: number;
    standardError: number;
    statistics: number[];
    pValue: number;
  }[];
}

const file = new URL('../../reference/wild-cluster/wild-cluster.json', import.meta.url);
const reference: Reference = JSON.parse(readFileSync(file, 'utf8'));

function sampleOf(strata: Reference['cases'][number]['strata']): BootstrapSample {
  const [first] = strata;
  if (first === undefined || strata.length > 1) return { kind: 'stratified', strata };
  return first.untreated.length > 0 ? { kind: 'two-groups', ...first } : { kind: 'one-group', clusters: first.treated };
}

const clustersOf = (sample: BootstrapSample) => wildClusters(sample.kind, clusterPools('test', sample, 'values'));

function close(found: number | undefined, wanted: number, relative = 1e-9): void {
  expect(Math.abs((found ?? Number.NaN) - wanted)).toBeLessThanOrEqual(relative * Math.max(1, Math.abs(wanted)));
}

describe('wild cluster statistics against R', () => {
  it.each(reference.cases)(
    'wildFit and wildStatistics are those of lm with CR3 errors, sample by sample: $name',
    (one) => {
      const clusters = clustersOf(sampleOf(one.strata));
      // In R the clusters stand in the order of the data.
      const weights = Float64Array.from(one.weights.flatMap((row) => one.order.map((at) => row[at] ?? Number.NaN)));
      const { effect, standardError, residuals } = wildFit(clusters, clusters.total);
      close(effect, one.estimate);
      close(standardError, one.standardError);
      const statistics = wildStatistics(clusters, residuals, weights);
      expect(statistics.length).toBe(one.statistics.length);
      for (const [at, statistic] of statistics.entries()) close(statistic, one.statistics[at] ?? Number.NaN);
      expect(wildP(statistics.map(Math.abs), (effect - one.supposed) / standardError)).toBeCloseTo(one.pValue, 12);
    },
  );
});

const treated = [[-3.1], [-1.8], [-2.6], [-2.2], [-3.3]];
const untreated = [[-1.2], [-2.0], [-0.6], [-1.4]];

describe('wildClusterTest', () => {
  it('wildClusterTest of one group of single values has the standard error and t of the paired test', () => {
    const values = [0.4, -0.2, 1.1, 0.9, 1.6, 0.3];
    const found = wildClusterTest({ kind: 'one-group', clusters: values.map((value) => [value]) }, { seed: 1 });
    const plain = paired(values);
    close(found.standardError, plain.standardError);
    close(found.statistic, plain.statistic);
    expect(found.n).toEqual({ treated: 6, untreated: 0 });
  });

  it('wildClusterTest takes |t| of the data as one of the samples: p is a whole number of (draws + 1)ths from 1', () => {
    const far = wildClusterTest(
      { kind: 'two-groups', treated: [[0], [1], [2], [1.5], [0.4]], untreated: [[100], [103], [99], [105], [101]] },
      { seed: 1, draws: 999 },
    );
    expect(Number.isInteger(Math.round(far.pValue * 1000 * 1e6) / 1e6)).toBe(true);
    expect(far.pValue).toBeGreaterThanOrEqual(1 / 1000);
    expect(far.monteCarlo).toMatchObject({ seed: 1, draws: 999 });
  });

  it('wildFit gives the jackknife: standard error and residuals from the fits without one cluster each', () => {
    const strata = [
      { treated: [[1, 2], [4]], untreated: [[0], [1, 1.5, 3]] },
      { treated: [[7], [9], [6, 7]], untreated: [[5, 3], [6]] },
    ];
    const all = clustersOf({ kind: 'stratified', strata });
    const { effect, standardError, residuals } = wildFit(all, all.total);
    let squares = 0;
    all.total.forEach((_, left) => {
      // Least squares without the cluster: the within-stratum slope of the remaining values.
      const rows = strata.flatMap(({ treated: some, untreated: others }, stratum) => [
        ...some.map((values) => ({ values, arm: 1, stratum })),
        ...others.map((values) => ({ values, arm: 0, stratum })),
      ]);
      const own = rows[left];
      const kept = rows
        .filter((_row, at) => at !== left)
        .flatMap(({ values, arm, stratum }) => values.map((y) => ({ y, arm, stratum })));
      const centre = (stratum: number, part: (row: { y: number; arm: number }) => number) => {
        const inside = kept.filter((row) => row.stratum === stratum);
        return inside.reduce((sum, row) => sum + part(row), 0) / inside.length;
      };
      const armOf = (row: { arm: number; stratum: number }) => row.arm - centre(row.stratum, ({ arm }) => arm);
      const slope =
        kept.reduce((sum, row) => sum + armOf(row) * row.y, 0) / kept.reduce((sum, row) => sum + armOf(row) ** 2, 0);
      squares += (slope - effect) ** 2;
      const fitted = centre(own?.stratum ?? 0, ({ y }) => y) + slope * armOf(own ?? { arm: 0, stratum: 0 });
      close(
        residuals[left],
        (own?.values ?? []).reduce((sum, y) => sum + y - fitted, 0),
      );
    });
    close(standardError, Math.sqrt((squares * (all.total.length - 1)) / all.total.length));
  });

  it('the interval ends where the p-value crosses 5 %: rejected just outside, not just inside', () => {
    const sample: BootstrapSample = { kind: 'two-groups', treated, untreated };
    const { interval, standardError, estimate, monteCarlo } = wildClusterTest(sample, { seed: 4, draws: 1_999 });
    const clusters = clustersOf(sample);
    const { residuals } = wildFit(clusters, clusters.total);
    const sizes = wildStatistics(clusters, residuals, webbWeights(1_999 * 9, 4)).map(Math.abs);
    const p = (at: number | undefined) => wildP(sizes, ((at ?? Number.NaN) - estimate) / standardError);
    const step = 1e-6 * standardError;
    expect(p((interval?.lower ?? 0) - step)).toBeLessThanOrEqual(0.05);
    expect(p((interval?.lower ?? 0) + step)).toBeGreaterThan(0.05);
    expect(p((interval?.upper ?? 0) + step)).toBeLessThanOrEqual(0.05);
    expect(p((interval?.upper ?? 0) - step)).toBeGreaterThan(0.05);
    // Other draws move the limits by about their Monte Carlo error.
    const other = wildClusterTest(sample, { seed: 5, draws: 1_999 });
    const moved = Math.abs((other.interval?.upper ?? 9) - (interval?.upper ?? 0));
    expect(moved).toBeLessThan(5 * Math.SQRT2 * (monteCarlo.limitStandardError ?? 0));
    expect(monteCarlo.limitStandardError).toBeLessThan(0.15 * standardError);
  });

  it('in strata that lie far apart the estimate is the least-squares one and the interval stays short', () => {
    const strata = [0, 500, -300].map((level) => ({
      treated: [[level + 1], [level + 2.2], [level + 1.4]],
      untreated: [[level], [level + 0.7], [level - 0.2]],
    }));
    const { estimate, interval, n } = wildClusterTest({ kind: 'stratified', strata }, { seed: 1, draws: 999 });
    const fit = blocked(strata.map((one) => ({ x: one.treated.flat(), y: one.untreated.flat() })));
    close(estimate, fit.estimate);
    const width = ({ lower, upper }: { lower: number; upper: number }) => upper - lower;
    expect(width(interval ?? { lower: 0, upper: 99 })).toBeLessThan(1.5 * width(fit.interval));
    expect(n).toEqual({ treated: 9, untreated: 9 });
  });

  it('with many like clusters the interval comes near that of the t test', () => {
    const values = (phase: number) => Array.from({ length: 20 }, (_, at) => [3 * Math.sin(at * 2.4 + phase)]);
    const sample: BootstrapSample = { kind: 'two-groups', treated: values(0), untreated: values(1) };
    const { interval } = wildClusterTest(sample, { seed: 2, draws: 3_999 });
    const plain = pooled(sample.treated.flat(), sample.untreated.flat()).interval;
    const width = plain.upper - plain.lower;
    expect(Math.abs((interval?.lower ?? 9) - plain.lower)).toBeLessThan(0.05 * width);
    expect(Math.abs((interval?.upper ?? 9) - plain.upper)).toBeLessThan(0.05 * width);
  });

  it('gives no interval where two clusters a group cannot reject anything at 99.9 %', () => {
    const { interval, pValue } = wildClusterTest(
      { kind: 'two-groups', treated: [[1], [2]], untreated: [[5], [7]] },
      { seed: 1, level: 0.999, draws: 999 },
    );
    expect(interval).toBeUndefined();
    expect(pValue).toBeGreaterThan(0.001);
  });

  it('shift of the treated moves estimate and interval, scale stretches, seed decides', () => {
    const pool = fc.array(fc.array(fc.integer({ min: -40, max: 40 }), { minLength: 1, maxLength: 3 }), {
      minLength: 5,
      maxLength: 7,
    });
    const varied = pool.filter((clusters) => new Set(clusters.map((one) => one[0])).size > 3);
    fc.assert(
      fc.property(varied, varied, fc.integer({ min: -20, max: 20 }), (some, others, shift) => {
        const test = (x: number[][], y: number[][]) =>
          wildClusterTest({ kind: 'two-groups', treated: x, untreated: y }, { seed: 3, draws: 299, level: 0.8 });
        const start = test(some, others);
        expect(test(some, others)).toEqual(start);
        const moved = test(
          some.map((values) => values.map((one) => one + shift)),
          others,
        );
        close(moved.estimate, start.estimate + shift);
        close(moved.interval?.lower, (start.interval?.lower ?? Number.NaN) + shift, 1e-4);
        const stretched = test(
          some.map((values) => values.map((one) => one * 4)),
          others.map((values) => values.map((one) => one * 4)),
        );
        expect(stretched.pValue).toBe(start.pValue);
        expect(start.pValue > 0 && start.pValue <= 1).toBe(true);
        close((stretched.interval?.upper ?? Number.NaN) / 4, start.interval?.upper ?? Number.NaN, 1e-4);
      }),
      { numRuns: 15 },
    );
  });
});

describe('webbWeights', () => {
  it('webbWeights have mean 0, variance 1, third moment 0 and fourth 7/6, and six values alike', () => {
    const weights = webbWeights(60_000, 8);
    const moment = (power: number) => weights.reduce((sum, weight) => sum + weight ** power, 0) / weights.length;
    expect(Math.abs(moment(1))).toBeLessThan(0.02);
    expect(Math.abs(moment(2) - 1)).toBeLessThan(0.01);
    expect(Math.abs(moment(3))).toBeLessThan(0.03);
    // (2.25 + 1 + 0.25) / 3.
    expect(Math.abs(moment(4) - 7 / 6)).toBeLessThan(0.02);
    expect(new Set(weights).size).toBe(6);
  });
});

describe('wildClusterTest refuses', () => {
  it.each([
    [
      'one cluster',
      () => wildClusterTest({ kind: 'one-group', clusters: [[1, 2, 3]] }, { seed: 1 }),
      'too-few',
      /2 clusters/,
    ],
    [
      'equal clusters',
      () => wildClusterTest({ kind: 'one-group', clusters: [[1], [1]] }, { seed: 1 }),
      'no-variation',
      /equal ones/,
    ],
    [
      'no draws',
      () => wildClusterTest({ kind: 'one-group', clusters: [[1], [2]] }, { seed: 1, draws: 0 }),
      'out-of-range',
      /draws/,
    ],
    [
      'level 0',
      () => wildClusterTest({ kind: 'one-group', clusters: [[1], [2]] }, { seed: 1, level: 0 }),
      'out-of-range',
      /level/,
    ],
  ])('%s', (_case, call, fault, message) => {
    expect(call).toThrow(
      expect.objectContaining({ name: 'StatisticsError', fault, message: expect.stringMatching(message) }),
    );
  });
});
