import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  beta,
  binomial,
  chiSquare,
  type Distribution,
  fisherF,
  gamma,
  isStatisticsError,
  noncentralityInterval,
  noncentralT,
  normal,
  studentisedRange,
  studentT,
} from '../../../src/statistics/index.js';
import { relativeError } from './relative-error.js';

const shape = fc.double({ min: -3, max: 6, noNaN: true }).map((exponent) => 10 ** exponent);
const modestShape = fc.double({ min: 0.5, max: 200, noNaN: true });
const probability = fc.double({ min: -30, max: -0.01, noNaN: true }).map(Math.exp);

/** Distributions by name, each from two arbitrary positive numbers. */
const families: readonly [name: string, make: (one: number, other: number) => Distribution, runs: number][] = [
  ['normal', (mean, spread) => normal(Math.log(mean), spread), 100],
  ['studentT', (df) => studentT(df), 100],
  ['fisherF', fisherF, 100],
  ['chiSquare', (df) => chiSquare(df), 100],
  ['gamma', gamma, 100],
  ['beta', beta, 100],
  ['noncentralT', (df, shift) => noncentralT(df, Math.log(shift)), 30],
  ['studentisedRange', (df, count) => studentisedRange(2 + Math.ceil(Math.log10(count) + 3), df), 3],
];

describe.each(families)('%s', (_name, make, runs) => {
  it('upperQuantile and quantile invert the tails they are named after', () => {
    fc.assert(
      fc.property(modestShape, modestShape, probability, (one, other, p) => {
        const distribution = make(one, other);
        const high = distribution.upperQuantile(p);
        const low = distribution.quantile(p);
        expect(Math.abs(distribution.upperTail(high) - p)).toBeLessThan(slack(distribution, high, p));
        expect(Math.abs(distribution.lowerTail(low) - p)).toBeLessThan(slack(distribution, low, p));
      }),
      { numRuns: runs },
    );
  });

  it('lowerTail + upperTail = 1, both within 0 and 1, and the lower one rises', () => {
    fc.assert(
      fc.property(shape, shape, probability, (one, other, p) => {
        const distribution = make(one, other);
        const x = distribution.quantile(p);
        if (!Number.isFinite(x)) return;
        const [lower, upper] = [distribution.lowerTail(x), distribution.upperTail(x)];
        expect(Math.abs(lower + upper - 1)).toBeLessThan(1e-12);
        expect(Math.min(lower, upper)).toBeGreaterThanOrEqual(0);
        expect(distribution.lowerTail(x + Math.abs(x) * 1e-6)).toBeGreaterThanOrEqual(lower * (1 - 1e-12));
      }),
      { numRuns: runs },
    );
  });

  it('density is the slope of the lower tail', () => {
    fc.assert(
      fc.property(modestShape, modestShape, fc.double({ min: 0.05, max: 0.95, noNaN: true }), (one, other, p) => {
        const distribution = make(one, other);
        const x = distribution.quantile(p);
        const step = (1e-4 * p * (1 - p)) / distribution.density(x);
        const rise = distribution.lowerTail(x + step) - distribution.lowerTail(x - step);
        expect(relativeError(rise / (2 * step), distribution.density(x))).toBeLessThan(1e-6);
      }),
      { numRuns: runs },
    );
  });

  it('answers at the ends of the support and refuses what is no probability', () => {
    const distribution = make(3.5, 7.5);
    expect(distribution.lowerTail(Number.NEGATIVE_INFINITY)).toBe(0);
    expect(distribution.lowerTail(Number.POSITIVE_INFINITY)).toBe(1);
    expect(distribution.upperTail(Number.POSITIVE_INFINITY)).toBe(0);
    expect(distribution.density(Number.POSITIVE_INFINITY)).toBe(0);
    expect(distribution.lowerTail(distribution.quantile(0))).toBe(0);
    expect(distribution.lowerTail(distribution.quantile(1))).toBe(1);
    expect(distribution.upperQuantile(0)).toBe(distribution.quantile(1));
    expect(distribution.upperQuantile(1)).toBe(distribution.quantile(0));
    expect(faultOf(() => distribution.quantile(-0.1))).toBe('out-of-range');
    expect(faultOf(() => distribution.upperQuantile(1.1))).toBe('out-of-range');
    expect(faultOf(() => distribution.quantile(Number.NaN))).toBe('not-finite');
    expect(faultOf(() => distribution.lowerTail(Number.NaN))).toBe('not-finite');
    expect(faultOf(() => distribution.density(Number.NaN))).toBe('not-finite');
  });
});

/** What a tail may miss its probability by: 1e-12 of it, and what rounding the quantile to a double moves it. */
function slack(distribution: Distribution, x: number, p: number): number {
  return 1e-12 * p + distribution.density(x) * Math.abs(x) * 5e-16;
}

describe('one distribution through another', () => {
  it('studentT(df) squared is fisherF(1, df)', () => {
    fc.assert(
      fc.property(shape, fc.double({ min: 1e-3, max: 30, noNaN: true }), (df, t) => {
        expect(relativeError(2 * studentT(df).upperTail(t), fisherF(1, df).upperTail(t * t))).toBeLessThan(1e-12);
      }),
    );
  });

  it('fisherF(a, b) is one over fisherF(b, a), and a beta of its share', () => {
    fc.assert(
      fc.property(modestShape, modestShape, fc.double({ min: 0.02, max: 50, noNaN: true }), (a, b, f) => {
        const upper = fisherF(a, b).upperTail(f);
        expect(relativeError(fisherF(b, a).lowerTail(1 / f), upper)).toBeLessThan(1e-11);
        expect(relativeError(beta(b / 2, a / 2).lowerTail(b / (b + a * f)), upper)).toBeLessThan(1e-11);
      }),
    );
  });

  it('chiSquare(df) is gamma(df / 2, 1 / 2), and with 2 degrees of freedom exp(-x / 2)', () => {
    for (const x of [0.01, 1, 7, 300]) {
      expect(chiSquare(7.3).upperTail(x)).toBe(gamma(3.65, 0.5).upperTail(x));
      expect(relativeError(chiSquare(2).upperTail(x), Math.exp(-x / 2))).toBeLessThan(1e-13);
    }
  });

  it('beta(a, b) mirrors beta(b, a), tiny shapes included', () => {
    fc.assert(
      fc.property(shape, shape, fc.integer({ min: 1, max: 1023 }), (a, b, part) => {
        const x = part / 1024;
        expect(relativeError(beta(a, b).lowerTail(x), beta(b, a).upperTail(1 - x))).toBeLessThan(1e-12);
      }),
    );
  });

  it('noncentralT(df, 0) is studentT(df)', () => {
    fc.assert(
      fc.property(shape, fc.double({ min: -40, max: 40, noNaN: true }), (df, t) => {
        expect(relativeError(noncentralT(df, 0).upperTail(t), studentT(df).upperTail(t))).toBeLessThan(1e-11);
        expect(relativeError(noncentralT(df, 0).density(t), studentT(df).density(t))).toBeLessThan(1e-11);
      }),
    );
  });

  it('studentisedRange(2, df) is the t distribution of a difference of two means', () => {
    for (const q of [0.01, 1, 5, 40]) {
      const t = 2 * studentT(7.3).upperTail(q / Math.SQRT2);
      expect(relativeError(studentisedRange(2, 7.3).upperTail(q), t)).toBeLessThan(1e-13);
    }
  });

  it('binomial(n, p) adds up its own probabilities', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.double({ min: 0, max: 1, noNaN: true }), (n, p) => {
        const distribution = binomial(n, p);
        let sum = 0;
        for (let k = 0; k <= n; k++) {
          sum += distribution.density(k);
          expect(Math.abs(distribution.lowerTail(k) - sum)).toBeLessThan(1e-13);
          expect(Math.abs(distribution.lowerTail(k) + distribution.upperTail(k) - 1)).toBeLessThan(1e-14);
        }
      }),
    );
  });

  it('binomial(n, p).quantile is the first count whose lower tail reaches the probability', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 5000 }),
        fc.double({ min: 0.001, max: 0.999, noNaN: true }),
        probability,
        (n, p, level) => {
          const distribution = binomial(n, p);
          const count = distribution.quantile(level);
          expect(distribution.lowerTail(count)).toBeGreaterThanOrEqual(level);
          if (count > 0) expect(distribution.lowerTail(count - 1)).toBeLessThan(level);
          const upper = distribution.upperQuantile(level);
          expect(distribution.upperTail(upper)).toBeLessThanOrEqual(level);
          if (upper > 0) expect(distribution.upperTail(upper - 1)).toBeGreaterThan(level);
        },
      ),
    );
  });
});

describe('extreme parameters', () => {
  const extreme = fc.oneof(
    fc.double({ min: -308, max: 308, noNaN: true }).map((exponent) => 10 ** exponent),
    fc.constantFrom(5e-324, 1e-300, 0.1, 1, 1e6, 1.7e308),
  );
  const signed = fc.tuple(extreme, fc.constantFrom(1, -1)).map(([size, sign]) => size * sign);
  const makers: readonly [name: string, make: (one: number, other: number) => Distribution][] = [
    ['normal', (one, other) => normal(other, one)],
    ['studentT', studentT],
    ['fisherF', (one, other) => fisherF(one, Math.abs(other))],
    ['chiSquare', chiSquare],
    ['gamma', (one, other) => gamma(one, Math.abs(other))],
    ['beta', (one, other) => beta(one, Math.abs(other))],
    ['binomial', (one, other) => binomial(Math.round(Math.min(one, 1e15)), 1 / (1 + Math.abs(other)))],
    ['noncentralT', noncentralT],
  ];

  it.each(makers)('%s answers with a number or refuses, at once', (_name, make) => {
    fc.assert(
      fc.property(extreme, signed, signed, probability, (one, other, x, p) => {
        const asked: ((distribution: Distribution) => number)[] = [
          (distribution) => distribution.density(x),
          (distribution) => distribution.lowerTail(x),
          (distribution) => distribution.upperTail(other),
          (distribution) => distribution.quantile(p),
          (distribution) => distribution.upperQuantile(p),
        ];
        for (const ask of asked) {
          const started = performance.now();
          let answer = 0;
          try {
            answer = ask(make(one, other));
          } catch (error) {
            if (!isStatisticsError(error)) throw error;
          }
          expect(answer).not.toBeNaN();
          // A loaded machine may stop for a while; an integral that does not end takes minutes.
          expect(performance.now() - started).toBeLessThan(1500);
        }
      }),
      { numRuns: 60 },
    );
  });
});

it('gamma(1e6, 1.7e308) at 1.7e308, whose product is no number of this machine: all of it lies below', () => {
  const distribution = gamma(1e6, 1.7e308);
  expect([distribution.lowerTail(1.7e308), distribution.upperTail(1.7e308)]).toEqual([1, 0]);
  expect(distribution.density(1.7e308)).toBe(0);
});

describe('noncentralT with a large noncentrality', () => {
  it.each([5e-324, -5e-324])('has no density at %s, far from where it lies', (t) => {
    expect(noncentralT(1, Math.sign(t) * 1e6).density(t)).toBe(0);
  });

  const degrees = fc.constantFrom(0.01, 0.5, 1, 3, 50);
  const relative = fc.double({ min: -1, max: 4, noNaN: true }).map((exponent) => 10 ** exponent);

  it('is the noncentrality over s: a chi-square tail', () => {
    fc.assert(
      fc.property(degrees, relative, fc.constantFrom(1e7, 1e12, 1e100), (df, factor, shift) => {
        const distribution = noncentralT(df, shift);
        const square = df / factor ** 2;
        expect(relativeError(distribution.upperTail(factor * shift), chiSquare(df).lowerTail(square))).toBeLessThan(
          1e-9,
        );
        const lower = chiSquare(df).upperTail(square);
        // Far below, the normal variate counts against what s does.
        if (factor > 0.5) expect(relativeError(distribution.lowerTail(factor * shift), lower)).toBeLessThan(1e-9);
      }),
    );
  });

  it('a quantile towards which the steps of Newton go to and fro', () => {
    const distribution = noncentralT(0.5, Math.log(6.414636667647628));
    const x = distribution.quantile(0.05568588581824754);
    expect(relativeError(distribution.lowerTail(x), 0.05568588581824754)).toBeLessThan(1e-12);
  });

  it('the larger tail of noncentralT(3, 40) at 12.04, an integral over a step, by an integral in 120 binary digits', () => {
    // R 4.2.2, Rmpfr, integrateR over s to a relative 1e-18.
    const t = 12.037876008125576;
    expect(relativeError(noncentralT(3, 40).upperTail(t), 0.999999588035885)).toBeLessThan(1e-13);
  });

  it('goes on as with a smaller one, where the way of computing changes', () => {
    fc.assert(
      fc.property(fc.constantFrom(0.5, 3, 15), fc.double({ min: 0.3, max: 3, noNaN: true }), (df, factor) => {
        const [before, after] = [40, 40.00000000000001].map((shift) => noncentralT(df, shift));
        const t = 40 * factor;
        expect(relativeError(after!.upperTail(t), before!.upperTail(t))).toBeLessThan(1e-9);
        expect(relativeError(after!.lowerTail(t), before!.lowerTail(t))).toBeLessThan(1e-9);
        expect(relativeError(after!.density(t), before!.density(t))).toBeLessThan(1e-9);
      }),
    );
  });

  it('is normal about the noncentrality with boundless degrees of freedom', () => {
    expect(noncentralT(1.7e308, 2).upperTail(3)).toBe(normal().upperTail(1));
  });

  it('refuses fewer degrees of freedom than 0.001', () => {
    expect(faultOf(() => noncentralT(9e-4, 1))).toBe('out-of-range');
  });
});

describe('noncentralityInterval', () => {
  it('gives limits under which the observed t has the tails it claims', () => {
    const anyT = fc.double({ min: -40, max: 40, noNaN: true });
    fc.assert(
      fc.property(
        anyT,
        fc.double({ min: 1, max: 500, noNaN: true }),
        fc.double({ min: 0.1, max: 0.999, noNaN: true }),
        (t, df, level) => {
          const { lower, upper } = noncentralityInterval(t, df, level);
          expect(relativeError(noncentralT(df, lower).upperTail(t), (1 - level) / 2)).toBeLessThan(1e-9);
          expect(relativeError(noncentralT(df, upper).lowerTail(t), (1 - level) / 2)).toBeLessThan(1e-9);
        },
      ),
      { numRuns: 50 },
    );
  });

  it('refuses a level of 1 and a t that is not finite', () => {
    expect(faultOf(() => noncentralityInterval(2, 10, 1))).toBe('out-of-range');
    expect(faultOf(() => noncentralityInterval(Number.POSITIVE_INFINITY, 10, 0.95))).toBe('not-finite');
  });
});

describe('parameters that make no distribution', () => {
  it.each<[string, () => unknown, string]>([
    ['normal(0, 0)', () => normal(0, 0), 'out-of-range'],
    ['normal(NaN)', () => normal(Number.NaN), 'not-finite'],
    ['fisherF(-1, 3)', () => fisherF(-1, 3), 'out-of-range'],
    ['fisherF(1, Infinity)', () => fisherF(1, Number.POSITIVE_INFINITY), 'not-finite'],
    ['chiSquare(0)', () => chiSquare(0), 'out-of-range'],
    ['gamma(1, -2)', () => gamma(1, -2), 'out-of-range'],
    ['beta(NaN, 1)', () => beta(Number.NaN, 1), 'not-finite'],
    ['binomial(2.5, 0.5)', () => binomial(2.5, 0.5), 'out-of-range'],
    ['binomial(0, 0.5)', () => binomial(0, 0.5), 'out-of-range'],
    ['binomial(3, 1.5)', () => binomial(3, 1.5), 'out-of-range'],
    ['noncentralT(3, Infinity)', () => noncentralT(3, Number.POSITIVE_INFINITY), 'not-finite'],
    ['studentisedRange(1, 10)', () => studentisedRange(1, 10), 'out-of-range'],
    ['studentisedRange(3, 0)', () => studentisedRange(3, 0), 'out-of-range'],
  ])('%s is refused', (_title, action, fault) => {
    expect(faultOf(action)).toBe(fault);
  });
});

function faultOf(action: () => unknown): string {
  try {
    action();
  } catch (error) {
    if (isStatisticsError(error)) return error.fault;
    throw error;
  }
  return 'nothing thrown';
}
