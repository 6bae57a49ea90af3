import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  clusterRobust,
  clusterRobustContrast,
  covariate,
  designMatrix,
  factor,
  intercept,
  isStatisticsError,
  leastSquares,
} from '../../../../src/statistics/index.js';
import { denseClusterRobust } from './dense-cluster-robust.js';
import { designOf, type ReferenceModel, readReference, relativeError } from './reference-model.js';

interface ClusterCase extends ReferenceModel {
  readonly clusters: string[];
  readonly judged: string[];
  readonly estimates: number[];
  readonly standardErrors: number[];
  readonly degreesOfFreedom: number[];
  readonly pValues: number[];
  readonly contrasts: readonly {
    readonly weights: Record<string, number>;
    readonly estimate: number;
    readonly standardError: number;
    readonly degreesOfFreedom: number;
    readonly lower: number;
    readonly upper: number;
    readonly pValue: number;
  }[];
}

describe('clusterRobustContrast(clusterRobust(fit, clusters), weights)', () => {
  for (const reference of readReference<ClusterCase>('cluster-robust.json').cases) {
    it(`matches clubSandwich's CR2 and Satterthwaite degrees of freedom: ${reference.name}, to 1e-8`, () => {
      const fit = leastSquares(designOf(reference), reference.response);
      const robust = clusterRobust(fit, reference.clusters);
      const found = reference.judged.map((name) => clusterRobustContrast(robust, { [name]: 1 }));
      expect(
        relativeError(
          found.map((one) => one.estimate),
          reference.estimates,
        ),
      ).toBeLessThan(1e-8);
      expect(
        relativeError(
          found.map((one) => one.standardError),
          reference.standardErrors,
        ),
      ).toBeLessThan(1e-8);
      expect(
        relativeError(
          found.map((one) => one.degreesOfFreedom),
          reference.degreesOfFreedom,
        ),
      ).toBeLessThan(1e-8);
      expect(
        relativeError(
          found.map((one) => one.pValue),
          reference.pValues,
        ),
      ).toBeLessThan(1e-7);
      for (const expected of reference.contrasts) {
        const { estimate, standardError, degreesOfFreedom, interval } = clusterRobustContrast(robust, expected.weights);
        expect(
          relativeError(
            [estimate, standardError, degreesOfFreedom, interval.lower, interval.upper],
            [expected.estimate, expected.standardError, expected.degreesOfFreedom, expected.lower, expected.upper],
          ),
        ).toBeLessThan(1e-8);
      }
    });
  }

  it('has the standard error of the paired test on walls with one before and one after reading, and its df', () => {
    const before = [12, 9, 11, 14, 10];
    const after = [10, 9.5, 8, 11, 9];
    const walls = ['a', 'b', 'c', 'd', 'e'];
    const design = designMatrix([
      factor('wall', [...walls, ...walls]),
      factor('visit', [...before.map(() => 'before'), ...after.map(() => 'after')], { reference: 'before' }),
    ]);
    const robust = clusterRobust(leastSquares(design, [...before, ...after]), [...walls, ...walls]);
    const found = clusterRobustContrast(robust, { 'visit: after': 1 });
    const changes = after.map((value, i) => value - before[i]!);
    const mean = changes.reduce((total, change) => total + change, 0) / 5;
    const spread = changes.reduce((total, change) => total + (change - mean) ** 2, 0) / 4;
    expect(found.estimate).toBeCloseTo(mean, 12);
    expect(found.standardError).toBeCloseTo(Math.sqrt(spread / 5), 12);
    expect(found.degreesOfFreedom).toBeCloseTo(4, 10);
  });

  it('has the covariance whose diagonal is the squared standard errors', () => {
    const reference = readReference<ClusterCase>('cluster-robust.json').cases[0]!;
    const robust = clusterRobust(leastSquares(designOf(reference), reference.response), reference.clusters);
    const size = robust.fit.rank;
    const roots = reference.judged.map((_, i) => Math.sqrt(robust.covariance[i * size + i]!));
    expect(relativeError(roots, reference.standardErrors)).toBeLessThan(1e-8);
  });

  it('gives the same error of a fitted value whether days are counted from the first or from 19,000 days earlier', () => {
    const near = [0, 30, 60, 0, 30, 60, 0, 30, 60, 90];
    const walls = ['a', 'a', 'a', 'b', 'b', 'b', 'c', 'c', 'c', 'c'];
    const judge = (origin: number) => {
      const design = designMatrix([
        intercept(),
        covariate(
          'days',
          near.map((day) => day + origin),
        ),
      ]);
      const fit = leastSquares(design, [9, 7, 6, 12, 11, 7, 8, 8, 5, 4]);
      return clusterRobustContrast(clusterRobust(fit, walls), { intercept: 1, days: origin + 45 });
    };
    const [here, far] = [judge(0), judge(19_000)];
    expect(
      relativeError(
        [far.estimate, far.standardError, far.degreesOfFreedom],
        [here.estimate, here.standardError, here.degreesOfFreedom],
      ),
    ).toBeLessThan(1e-9);
  });

  const trials = fc
    .array(fc.record({ size: fc.integer({ min: 1, max: 7 }), arm: fc.constantFrom('a', 'b') }), {
      minLength: 4,
      maxLength: 8,
    })
    .filter((walls) => ['a', 'b'].every((arm) => walls.filter((wall) => wall.arm === arm).length > 1))
    .chain((walls) => {
      const rows = walls.flatMap(({ size, arm }, wall) =>
        Array.from({ length: size }, () => ({ arm, wall: `wall ${wall}` })),
      );
      const numbers = fc.array(fc.integer({ min: -99, max: 99 }), { minLength: rows.length, maxLength: rows.length });
      return fc.record({ rows: fc.constant(rows), x: numbers, y: numbers });
    })
    .filter(({ rows, x }) => rows.length > 5 && new Set(x).size > 3);

  function fitted(rows: readonly { arm: string; wall: string }[], x: readonly number[], y: readonly number[]) {
    const arms = rows.map(({ arm }) => arm);
    const design = designMatrix([intercept(), factor('arm', arms, { reference: 'a' }), covariate('x', x)]);
    return leastSquares(design, y);
  }

  it('equals the printed formulas with observation-by-observation matrices, for any small trial', () => {
    let compared = 0;
    fc.assert(
      fc.property(trials, ({ rows, x, y }) => {
        const clusters = rows.map(({ wall }) => wall);
        for (const [name, weights] of [
          ['arm: b', [0, 1, 0]],
          ['x', [0, 0, 1]],
        ] as const) {
          try {
            const fit = fitted(rows, x, y);
            const fast = clusterRobustContrast(clusterRobust(fit, clusters), { [name]: 1 });
            const dense = denseClusterRobust(fit, clusters, weights);
            expect(relativeError([fast.degreesOfFreedom], [dense.degreesOfFreedom])).toBeLessThan(1e-6);
            expect(Math.abs(fast.standardError - dense.standardError)).toBeLessThan(
              1e-9 * (fast.standardError + Math.hypot(...y)),
            );
            compared++;
          } catch (error) {
            if (!isStatisticsError(error)) throw error;
          }
        }
      }),
    );
    expect(compared).toBeGreaterThan(100);
  });

  it('scales with the response and ignores its shift, the order of rows and the names of clusters', () => {
    fc.assert(
      fc.property(trials, fc.constantFrom(-2, 0.5, 8), ({ rows, x, y }, scale) => {
        const clusters = rows.map(({ wall }) => wall);
        const judge = (order: readonly number[], response: readonly number[], rename: (name: string) => string) => {
          const pick = <Value>(values: readonly Value[]) => order.map((row) => values[row]!);
          const robust = clusterRobust(fitted(pick(rows), pick(x), pick(response)), pick(clusters).map(rename));
          return clusterRobustContrast(robust, { 'arm: b': 1 });
        };
        const order = [...rows.keys()];
        let plain: ReturnType<typeof judge>;
        try {
          plain = judge(order, y, (name) => name);
        } catch (error) {
          if (isStatisticsError(error)) return;
          throw error;
        }
        const moved = judge(
          order.reverse(),
          y.map((value) => 7 + scale * value),
          (name) => `renamed ${name}`,
        );
        const size = 1e-9 * (Math.hypot(...y) + 100);
        expect(Math.abs(moved.estimate - scale * plain.estimate)).toBeLessThan(Math.abs(scale) * size * 100);
        expect(Math.abs(moved.standardError - Math.abs(scale) * plain.standardError)).toBeLessThan(size * 100);
        expect(relativeError([moved.degreesOfFreedom], [plain.degreesOfFreedom])).toBeLessThan(1e-7);
      }),
    );
  });

  describe('refuses', () => {
    const arms = ['a', 'a', 'b', 'b', 'b', 'a'];
    const fit = leastSquares(designMatrix([intercept(), factor('arm', arms, { reference: 'a' })]), [1, 2, 4, 3, 5, 2]);

    it('clusters that are not as many as observations', () => {
      expect(() => clusterRobust(fit, ['w'])).toThrow(expect.objectContaining({ fault: 'lengths-differ' }));
    });

    it('a single cluster', () => {
      const all = arms.map(() => 'w');
      expect(() => clusterRobust(fit, all)).toThrow(expect.objectContaining({ fault: 'too-few' }));
    });

    it('a difference of arms that have one cluster each', () => {
      const robust = clusterRobust(fit, arms);
      expect(() => clusterRobustContrast(robust, { 'arm: b': 1 })).toThrow(
        expect.objectContaining({ fault: 'too-few', message: expect.stringContaining('single clusters determine it') }),
      );
    });

    it('a fit without residuals', () => {
      const exact = leastSquares(
        designMatrix([intercept(), factor('arm', arms, { reference: 'a' })]),
        [1, 1, 2, 2, 2, 1],
      );
      expect(() => clusterRobust(exact, ['p', 'q', 'p', 'q', 'r', 'r'])).toThrow(
        expect.objectContaining({ fault: 'no-variation' }),
      );
    });

    it('a name that is no column', () => {
      const robust = clusterRobust(fit, ['p', 'q', 'p', 'q', 'r', 'r']);
      expect(() => clusterRobustContrast(robust, { sham: 1 })).toThrow(
        expect.objectContaining({ fault: 'out-of-range' }),
      );
    });
  });
});
