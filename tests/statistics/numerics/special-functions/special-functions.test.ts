import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { deviance } from '../../../../src/statistics/numerics/special-functions/deviance.js';
import { exponentialRemainder } from '../../../../src/statistics/numerics/special-functions/exponential-remainder.js';
import { logRemainder } from '../../../../src/statistics/numerics/special-functions/log-remainder.js';
import { millsRatio } from '../../../../src/statistics/numerics/special-functions/mills-ratio.js';
import { minusProduct } from '../../../../src/statistics/numerics/special-functions/minus-product.js';
import { normalBetween } from '../../../../src/statistics/numerics/special-functions/normal-between.js';
import { normalCentralProbability } from '../../../../src/statistics/numerics/special-functions/normal-tails.js';
import { stirlingExcess } from '../../../../src/statistics/numerics/special-functions/stirling-excess.js';
import { relativeError } from '../../distributions/relative-error.js';

describe('millsRatio', () => {
  it('is the square root of pi/2 at 0 and falls off like 1/x - 1/x^3 + 3/x^5', () => {
    expect(relativeError(millsRatio(0), Math.sqrt(Math.PI / 2))).toBeLessThan(1e-15);
    expect(relativeError(millsRatio(1e4), 1e-4 - 1e-12 + 3e-20)).toBeLessThan(1e-15);
    expect(millsRatio(1e300)).toBe(1e-300);
  });

  it('has the slope x M(x) - 1', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 30, noNaN: true }), (x) => {
        const slope = (millsRatio(x + 1e-4) - millsRatio(x - 1e-4)) / 2e-4;
        expect(Math.abs(slope - (x * millsRatio(x) - 1))).toBeLessThan(1e-8);
      }),
    );
  });
});

describe('stirlingExcess', () => {
  it('gives factorials back: n! for n up to 20', () => {
    let factorial = 1;
    for (let n = 1; n <= 20; n++) {
      factorial *= n;
      const a = n + 1;
      const stirling = Math.sqrt((2 * Math.PI) / a) * Math.exp(a * (Math.log(a) - 1) + stirlingExcess(a));
      expect(relativeError(stirling, factorial)).toBeLessThan(5e-14);
    }
  });

  it('is 1/(12 a) - 1/(360 a^3) far out, and joins its two halves at 10', () => {
    expect(relativeError(stirlingExcess(1e5), 1 / 12e5 - 1 / 360e15)).toBeLessThan(1e-15);
    expect(Math.abs(stirlingExcess(10) - stirlingExcess(10 - 1e-12))).toBeLessThan(1e-14);
  });
});

describe('functions that do not cancel', () => {
  it('logRemainder is log(1 + z) - z, near 0 -z^2/2 + z^3/3', () => {
    expect(relativeError(logRemainder(1e-9), -5e-19 + 1e-27 / 3)).toBeLessThan(1e-15);
    for (const z of [-0.9, -0.41, -0.39, 0.5, 0.79, 0.81, 12]) {
      expect(relativeError(logRemainder(z), Math.log1p(z) - z)).toBeLessThan(2e-15);
    }
  });

  it('exponentialRemainder is exp(x) - 1 - x, near 0 x^2/2 + x^3/6', () => {
    expect(relativeError(exponentialRemainder(-1e-7), 5e-15 - 1e-21 / 6)).toBeLessThan(1e-15);
    for (const x of [-3, -0.51, -0.49, 0.3, 0.49, 0.51, 2]) {
      expect(relativeError(exponentialRemainder(x), Math.expm1(x) - x)).toBeLessThan(2e-15);
    }
  });

  it('deviance is observed log(observed/expected) - difference, 0 when they agree', () => {
    expect(deviance(1e10, 1e10, 0)).toBe(-0);
    expect(relativeError(deviance(1e10 + 1, 1e10, 1), 5e-11)).toBeLessThan(1e-9);
    for (const expected of [0.1, 3, 4.9, 5.1, 40]) {
      expect(
        relativeError(deviance(5, expected, 5 - expected), 5 * Math.log(5 / expected) - 5 + expected),
      ).toBeLessThan(1e-12);
    }
  });

  it('minusProduct is c - a b without rounding the product', () => {
    expect(minusProduct(1, 1 + 2 ** -30, 1 - 2 ** -30)).toBe(2 ** -60);
    expect(minusProduct(0.1, 0.1, 1)).toBe(0);
  });

  it('normalBetween and normalCentralProbability keep their digits for the narrowest of intervals', () => {
    const density = Math.exp(-2) / Math.sqrt(2 * Math.PI);
    expect(relativeError(normalBetween(2, 1e-12), 1e-12 * density)).toBeLessThan(1e-11);
    expect(relativeError(normalCentralProbability(1e-9), 1e-9 / Math.sqrt(2 * Math.PI))).toBeLessThan(1e-15);
    for (const [z, width] of [
      [0.3, 0.999],
      [0.3, 1.001],
      [9, 3],
      [-8, 2],
    ] as const) {
      const byParts = normalBetween(z, width / 2) + normalBetween(z - width / 2, width / 2);
      expect(relativeError(normalBetween(z, width), byParts)).toBeLessThan(1e-14);
    }
  });
});
