import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  censoredGroupMeans,
  censoredMean,
  concordance,
  deming,
  errorRatio,
  inverseAt,
  isStatisticsError,
  limitsOfAgreement,
  limitsOfRepeated,
  normalDraws,
  predictedAt,
  productLimit,
  randomStream,
  repeatability,
  restrictedMean,
  type StatisticsFault,
  survivingAt,
  york,
  yorkByGroups,
  yorkWithoutEach,
} from '../../../../src/statistics/index.js';

/** Pairs about a line, with errors in both members, and a group for each. */
function madePairs(n: number, groups: number, seed: number) {
  const drawn = [...normalDraws(randomStream(seed), 2 * n)];
  const draws = () => drawn.pop() as number;
  const x: number[] = [];
  const y: number[] = [];
  for (let i = 0; i < n; i++) {
    const truth = 2 + (10 * i) / n;
    x.push(truth + 0.3 * draws());
    y.push(20 + 4 * truth + 2 * draws());
  }
  const uncertaintyX = x.map((_, i) => 0.2 + (i % 5) / 20);
  const uncertaintyY = y.map((_, i) => 1 + (i % 7) / 5);
  const correlation = x.map((_, i) => ((i % 3) - 1) / 5);
  return { x, y, uncertaintyX, uncertaintyY, correlation, groups: x.map((_, i) => `wall ${i % groups}`) };
}

function refuses(call: () => unknown, fault: StatisticsFault): void {
  try {
    call();
  } catch (error) {
    if (!isStatisticsError(error)) throw error;
    expect(error.fault).toBe(fault);
    return;
  }
  throw new Error(`was not refused as ${fault}`);
}

const near = (found: number, wanted: number, relative = 1e-9) =>
  expect(Math.abs(found - wanted)).toBeLessThanOrEqual(relative * Math.max(1, Math.abs(wanted)));

describe('lines with errors in both variables', () => {
  it('yorkWithoutEach gives the fit of the remaining pairs', () => {
    const { groups, ...pairs } = madePairs(60, 7, 11);
    for (const { group, slope, intercept } of yorkWithoutEach(pairs, groups)) {
      const keep = <T>(list: readonly T[]) => list.filter((_, index) => groups[index] !== group);
      const line = york({
        x: keep(pairs.x),
        y: keep(pairs.y),
        uncertaintyX: keep(pairs.uncertaintyX),
        uncertaintyY: keep(pairs.uncertaintyY),
        correlation: keep(pairs.correlation),
      });
      near(slope, line.slope, 1e-11);
      near(intercept, line.intercept, 1e-11);
    }
  });

  it('york with the same errors throughout is deming with their ratio', () => {
    const { x, y, groups } = madePairs(30, 5, 3);
    const line = york({ x, y, uncertaintyX: x.map(() => 0.3), uncertaintyY: y.map(() => 2) });
    const other = deming({ x, y }, { errorRatio: 4 / 0.09 });
    near(line.slope, other.slope, 1e-10);
    near(line.intercept, other.intercept, 1e-9);
    const grouped = yorkByGroups({ x, y, uncertaintyX: x.map(() => 0.3), uncertaintyY: y.map(() => 2) }, groups);
    const wanted = deming({ x, y }, { errorRatio: 4 / 0.09, groups });
    near(grouped.slopeInterval.lower, wanted.slopeInterval.lower, 1e-8);
    near(grouped.interceptInterval.upper, wanted.interceptInterval.upper, 1e-8);
    near(grouped.scatter, wanted.scatter, 1e-9);
  });

  it('deming exchanges with its axes and follows a change of unit; its left-out lines are those of the rest', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), fc.double({ min: 0.1, max: 20, noNaN: true }), (seed, ratio) => {
        const { x, y, groups } = madePairs(12, 4, seed);
        const line = deming({ x, y }, { errorRatio: ratio, groups });
        near(1 / deming({ x: y, y: x }, { errorRatio: 1 / ratio }).slope, line.slope);
        near(deming({ x, y: y.map((value) => 3 * value - 7) }, { errorRatio: 9 * ratio }).slope, 3 * line.slope);
        const rest = (list: readonly number[]) => list.filter((_, index) => groups[index] !== 'wall 2');
        const without = deming({ x: rest(x), y: rest(y) }, { errorRatio: ratio });
        const named = line.leftOut.find(({ group }) => group === 'wall 2');
        near(named?.slope ?? Number.NaN, without.slope);
        near(named?.intercept ?? Number.NaN, without.intercept, 1e-8);
      }),
      { numRuns: 30 },
    );
  });

  it('inverseAt turns predictedAt round: the limits are where the y is a limit', () => {
    const { groups: _, ...pairs } = madePairs(20, 5, 5);
    const line = york(pairs, { scatter: 'as-seen' });
    const { estimate, interval, within } = inverseAt(line, 50, { newReading: 2 });
    near(predictedAt(line, estimate).estimate, 50);
    near(predictedAt(line, interval.lower, { newReading: 2 }).interval.upper, 50);
    near(predictedAt(line, interval.upper, { newReading: 2 }).interval.lower, 50);
    expect(within).toBe(true);
    expect(inverseAt(line, 500).within).toBe(false);
  });

  it('errorRatio pools within groups, worked by hand', () => {
    // x: 0.02 + 0.02 over 2; y: 8 + 4.5 over 2.
    near(
      errorRatio(
        [[4.1, 4.3], [6, 6.2], [9]],
        [
          [31, 35],
          [52, 49],
        ],
      ),
      6.25 / 0.02,
    );
  });

  it('refuses what fixes no line', () => {
    const x = [1, 2, 3, 4];
    refuses(() => deming({ x: [1, 2], y: [1, 2] }), 'too-few');
    refuses(() => deming({ x, y: [5, 5, 5, 5] }), 'no-variation');
    refuses(() => deming({ x, y: [1, 2, 3] }), 'lengths-differ');
    refuses(() => deming({ x, y: [1, 2, 3, Number.NaN] }), 'not-finite');
    refuses(() => deming({ x, y: [1, 2, 3, 5] }, { errorRatio: 0 }), 'out-of-range');
    refuses(() => deming({ x, y: [1, 2, 3, 5] }, { groups: ['a', 'a', 'b', 'b'] }), 'too-few');
    refuses(() => york({ x, y: [1, 2, 3, 5], uncertaintyX: [1, 1, 0, 1], uncertaintyY: x }), 'out-of-range');
    const flat = deming({ x: [1, 2, 3, 4, 5, 6], y: [4, 1, 5, 2, 6, 1.5] }, { errorRatio: 100 });
    refuses(() => inverseAt(flat, 3), 'no-variation');
    refuses(() => errorRatio([[1], [2]], [[1, 2]]), 'too-few');
  });
});

describe('agreement', () => {
  it('limitsOfRepeated is narrower for no one: with tiny scatter within it is limitsOfAgreement of the means', () => {
    const centres = [1, -2, 0.5, 3, -1, 0.2];
    const things = centres.map((shift) => ({ x: [5 + shift - 1e-7, 5 + shift + 1e-7], y: [5, 5] }));
    const single = limitsOfAgreement(centres);
    near(limitsOfRepeated({ kind: 'varying', things }).upper.estimate, single.upper.estimate, 1e-8);
    near(limitsOfRepeated({ kind: 'constant', things }).upper.interval.upper, single.upper.interval.upper, 1e-8);
  });

  it('repeatability of readers of unequal numbers, worked by hand', () => {
    // Readers' means 4.2, 4.5, 4.1; within 0.02 + 0.02 over 2; n̄ = (5 − 9/5)/2 = 1.6.
    const found = repeatability([[4.1, 4.3], [4.6, 4.4], [4.1]]);
    near(found.repeatability, Math.sqrt(0.02));
    const ofMeans = (2 * (4.2 - 4.3) ** 2 + 2 * (4.5 - 4.3) ** 2 + (4.1 - 4.3) ** 2) / 2;
    near(found.betweenReaders, Math.sqrt((ofMeans - 0.02) / 1.6));
    near(found.repeatabilityLimit, 2.7718585822512662 * Math.sqrt(0.02));
  });

  it('concordance is lower than the correlation wherever the methods are shifted', () => {
    const x = [4, 6, 9, 12, 13];
    const found = concordance(x, [6.2, 7.9, 11.1, 14.2, 14.8]);
    expect(found.precision).toBeGreaterThan(0.99);
    expect(found.estimate).toBeLessThan(0.9);
    near(found.estimate, found.precision * found.accuracy);
  });

  it('refuses what has no agreement to speak of', () => {
    refuses(() => limitsOfAgreement([1, 1, 1]), 'no-variation');
    refuses(() => limitsOfAgreement([1, 2]), 'too-few');
    refuses(() => limitsOfRepeated({ kind: 'varying', things: Array(3).fill({ x: [1], y: [2] }) }), 'too-few');
    refuses(
      () => limitsOfRepeated({ kind: 'varying', things: Array(3).fill({ x: [1, 2], y: [2] }) }),
      'lengths-differ',
    );
    refuses(() => concordance([1, 2, 3, 4], [2, 2, 2, 2]), 'no-variation');
    refuses(() => concordance([1, 2, 3, 4], [1, 2, 3, 4]), 'no-variation');
    refuses(() => repeatability([[1], [2]]), 'too-few');
  });
});

describe('values below a limit, and times', () => {
  const measured = [1.2, 2.1, 0.9, 3.4, 1.7, 2.6].map((value) => ({ kind: 'measured', value }) as const);

  it('censoredMean without censoring is the mean, and follows a change of unit', () => {
    const { estimate, interval } = censoredMean(measured);
    near(estimate, 11.9 / 6, 1e-7);
    // Student's, by hand: 2.5706 (tables, 5 degrees of freedom) standard errors.
    const spread = Math.sqrt(measured.reduce((sum, { value }) => sum + (value - 11.9 / 6) ** 2, 0) / 5);
    near(interval.upper - estimate, (2.570581835636314 * spread) / Math.sqrt(6), 1e-6);
    const values = [...measured, { kind: 'below', limit: 0.8 } as const];
    const scaled = values.map((one) =>
      one.kind === 'measured' ? { ...one, value: 1000 * one.value } : { ...one, limit: 1000 * one.limit },
    );
    const [small, large] = [censoredMean(values), censoredMean(scaled)];
    near(large.estimate / 1000, small.estimate, 1e-6);
    near(large.interval.lower / 1000, small.interval.lower, 1e-6);
    expect(small.estimate).toBeLessThan(11.9 / 6);
  });

  it('censoredGroupMeans moves a group with its values, and leaves groups that lie far above the limit as they are', () => {
    const low = [...measured, { kind: 'below', limit: 0.8 } as const];
    const high = measured.map(({ value }) => ({ kind: 'measured', value: value + 50 }) as const);
    const [first, second] = censoredGroupMeans([low, high]).groups;
    near(second?.mean ?? 0, 50 + 11.9 / 6, 1e-12);
    expect(first?.mean).toBeLessThan(11.9 / 6);
    expect(first?.expectedBelow[0]).toBeLessThan(0.8);
    const shifted = low.map((one) =>
      one.kind === 'measured' ? { ...one, value: one.value - 7 } : { ...one, limit: one.limit - 7 },
    );
    near(censoredGroupMeans([high, shifted]).groups[1]?.mean ?? 0, (first?.mean ?? 0) - 7, 1e-9);
    refuses(() => censoredGroupMeans([measured, [{ kind: 'below', limit: 1 }]]), 'too-few');
    refuses(() => censoredGroupMeans([measured.slice(0, 1), measured.slice(1, 2)]), 'no-variation');
    refuses(() => censoredGroupMeans([]), 'no-variation');
  });

  it('refuses what fixes no mean', () => {
    refuses(
      () =>
        censoredMean([
          { kind: 'measured', value: 1 },
          { kind: 'below', limit: 2 },
        ]),
      'too-few',
    );
    refuses(() => censoredMean([...measured, { kind: 'below', limit: -1 }], { kind: 'lognormal' }), 'out-of-range');
    refuses(() => productLimit([]), 'too-few');
    const open = productLimit([
      { time: 2, end: 'event' },
      { time: 5, end: 'censored' },
    ]);
    refuses(() => survivingAt(open, 6), 'out-of-range');
    refuses(() => restrictedMean(open, 6), 'out-of-range');
    // Half the units for all five, half for two.
    near(restrictedMean(open, 5).estimate, 3.5);
  });
});

describe('a number or a named error, never NaN, whatever goes in', () => {
  const number = fc.oneof(
    fc.double(),
    fc.constantFrom(0, 1, 1e-320, 1e-200, 1e200, -1e200, Number.MAX_VALUE, Number.NaN, Number.POSITIVE_INFINITY),
    fc.integer({ min: -3, max: 3 }),
  );
  const sample = fc.array(number, { maxLength: 6 });

  /** Places in a result where a number is not finite. */
  function notFinite(value: unknown, path = ''): string[] {
    if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} is ${value}`];
    if (typeof value !== 'object' || value === null) return [];
    return Object.entries(value).flatMap(([key, inside]) => notFinite(inside, `${path}.${key}`));
  }

  it.each<[string, (x: number[], y: number[]) => unknown]>([
    ['deming', (x, y) => deming({ x, y })],
    ['inverseAt', (x, y) => inverseAt(deming({ x, y }), y[0] ?? 0, { newReading: 1 })],
    ['predictedAt', (x, y) => predictedAt(deming({ x, y }), x[0] ?? 0)],
    ['york', (x, y) => york({ x, y, uncertaintyX: x.map(() => 0.5), uncertaintyY: y.map(() => 2) })],
    [
      'yorkWithoutEach',
      (x, y) => yorkWithoutEach({ x, y, uncertaintyX: x.map(() => 1), uncertaintyY: y.map(() => 1) }, x.map(String)),
    ],
    [
      'yorkByGroups',
      (x, y) => yorkByGroups({ x, y, uncertaintyX: x.map(() => 1), uncertaintyY: y.map(() => 1) }, x.map(String)),
    ],
    ['errorRatio', (x, y) => errorRatio([x], [y])],
    ['limitsOfAgreement', (x) => limitsOfAgreement(x)],
    [
      'limitsOfRepeated',
      (x, y) =>
        limitsOfRepeated({
          kind: 'constant',
          things: [
            { x, y },
            { x: y, y: x },
            { x, y: x },
          ],
        }),
    ],
    ['concordance', (x, y) => concordance(x, y)],
    ['repeatability', (x, y) => repeatability([x, y])],
    [
      'censoredGroupMeans',
      (x, y) =>
        censoredGroupMeans([
          [
            ...x.map((value) => ({ kind: 'measured' as const, value })),
            ...y.map((limit) => ({ kind: 'below' as const, limit })),
          ],
          y.map((value) => ({ kind: 'measured' as const, value })),
        ]),
    ],
    [
      'censoredMean',
      (x, y) =>
        censoredMean([
          ...x.map((value) => ({ kind: 'measured' as const, value })),
          ...y.map((limit) => ({ kind: 'below' as const, limit })),
        ]),
    ],
    [
      'censoredMean, lognormal',
      (x, y) =>
        censoredMean(
          [
            ...x.map((value) => ({ kind: 'measured' as const, value })),
            ...y.map((limit) => ({ kind: 'below' as const, limit })),
          ],
          { kind: 'lognormal' },
        ),
    ],
    [
      'productLimit',
      (x, y) =>
        productLimit([
          ...x.map((time) => ({ time, end: 'event' as const })),
          ...y.map((time) => ({ time, end: 'censored' as const })),
        ]),
    ],
    ['restrictedMean', (x) => restrictedMean(productLimit(x.map((time) => ({ time, end: 'event' as const }))), 2)],
  ])('%s', (_name, call) => {
    fc.assert(
      fc.property(sample, sample, (x, y) => {
        let result: unknown;
        try {
          result = call(x, y);
        } catch (error) {
          if (!isStatisticsError(error)) throw error;
          return;
        }
        expect(notFinite(result)).toEqual([]);
      }),
      { numRuns: 150 },
    );
  });
});
