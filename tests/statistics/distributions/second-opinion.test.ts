import fc from 'fast-check';
import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import { beta, binomial, fisherF, gamma, studentisedRange, studentT } from '../../../src/statistics/index.js';

const other = jstat.jStat;

/** The body: where that package is right to 1e-6. Its tails are not, which is why nothing here computes with it. */
const body = (probability: number) => probability > 1e-4 && probability < 1 - 1e-4;
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const runs = { numRuns: 300 };

function agree(ours: number, theirs: number, at: readonly number[]): void {
  if (!body(ours)) return;
  expect(Math.abs(theirs / ours - 1), `${at.join(', ')}: ${ours} and ${theirs}`).toBeLessThan(1e-6);
}

describe('the body of the distributions, jstat as a second opinion', () => {
  it('Student’s t', () => {
    const property = fc.property(number(-8, 8), number(1, 400), (x, df) =>
      agree(studentT(df).lowerTail(x), other.studentt.cdf(x, df), [x, df]),
    );
    fc.assert(property, runs);
  });

  it('F', () => {
    const property = fc.property(number(0.02, 20), number(1, 200), number(1, 200), (x, above, below) =>
      agree(fisherF(above, below).lowerTail(x), other.centralF.cdf(x, above, below), [x, above, below]),
    );
    fc.assert(property, runs);
  });

  it('beta', () => {
    const property = fc.property(number(0.001, 0.999), number(0.5, 200), number(0.5, 200), (x, a, b) =>
      agree(beta(a, b).lowerTail(x), other.beta.cdf(x, a, b), [x, a, b]),
    );
    fc.assert(property, runs);
  });

  it('gamma', () => {
    const property = fc.property(number(0.01, 300), number(0.5, 200), (x, shape) =>
      agree(gamma(shape, 1).lowerTail(x), other.gamma.cdf(x, shape, 1), [x, shape]),
    );
    fc.assert(property, runs);
  });

  it('binomial', () => {
    const property = fc.property(fc.integer({ min: 1, max: 200 }), number(0.01, 0.99), fc.nat(200), (n, p, k) =>
      agree(binomial(n, p).lowerTail(k), other.binomial.cdf(k, n, p), [n, p, k]),
    );
    fc.assert(property, runs);
  });

  it('studentised range', () => {
    const property = fc.property(
      number(0.5, 8),
      fc.integer({ min: 2, max: 12 }),
      fc.integer({ min: 3, max: 120 }),
      (q, k, df) => agree(studentisedRange(k, df).lowerTail(q), other.tukey.cdf(q, k, df), [q, k, df]),
    );
    fc.assert(property, { numRuns: 60 });
  });
});
