import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addScaled,
  type DoubleDouble,
  dot,
  doubleDouble,
  doubleDoubles,
  product,
  quotient,
  squareRoot,
  sum,
} from '../../../../src/statistics/models/linear/double-double.js';

// Whole numbers below 2^53 and their products are exact in BigInt, so that no rounding hides in the comparison.
const whole = fc.maxSafeInteger();
const nonzero = whole.filter((value) => value !== 0);

function exactly({ high, low }: DoubleDouble): bigint {
  return BigInt(high) + BigInt(low);
}

function size(value: bigint): number {
  return Math.abs(Number(value));
}

describe('double-double arithmetic', () => {
  it('holds the product and the sum of any two doubles without rounding', () => {
    fc.assert(
      fc.property(whole, whole, (a, b) => {
        expect(exactly(product(doubleDouble(a), doubleDouble(b)))).toBe(BigInt(a) * BigInt(b));
        expect(exactly(sum(doubleDouble(a), doubleDouble(b)))).toBe(BigInt(a) + BigInt(b));
      }),
    );
  });

  it('divides and takes roots to 30 digits: multiplied back, what is left is below 1e-30', () => {
    fc.assert(
      fc.property(nonzero, nonzero, (a, b) => {
        const back = product(quotient(doubleDouble(a), doubleDouble(b)), doubleDouble(b));
        expect(Math.abs(back.high - a + back.low)).toBeLessThanOrEqual(1e-30 * Math.abs(a));
        const root = squareRoot(doubleDouble(Math.abs(a)));
        const square = product(root, root);
        expect(Math.abs(square.high - Math.abs(a) + square.low)).toBeLessThanOrEqual(1e-30 * Math.abs(a));
      }),
    );
    expect(squareRoot(doubleDouble(0))).toEqual({ high: 0, low: 0 });
  });

  it('sums products to 30 digits of the sum of their sizes, however they cancel', () => {
    const pairs = fc.array(fc.tuple(whole, whole), { minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(pairs, (entries) => {
        const [a, b] = [doubleDoubles(entries.length), doubleDoubles(entries.length)];
        entries.forEach(([x, y], i) => {
          a.high[i] = x;
          b.high[i] = y;
        });
        const exact = entries.reduce((total, [x, y]) => total + BigInt(x) * BigInt(y), 0n);
        const sizes = entries.reduce((total, [x, y]) => total + Math.abs(x * y), 0);
        const found = dot(a, 0, b, 0, entries.length);
        expect(size(exact - exactly(found))).toBeLessThanOrEqual(1e-30 * sizes);
      }),
    );
  });

  it('adds a multiple in place, and only where it is told to', () => {
    const [target, source] = [doubleDoubles(4), doubleDoubles(3)];
    target.high.set([1, 2 ** 60, 3, 4]);
    source.high.set([9, 1, 2]);
    addScaled(target, 1, doubleDouble(3), source, 1, 2);
    expect([...target.high]).toEqual([1, 2 ** 60, 9, 4]);
    expect([...target.low]).toEqual([0, 3, 0, 0]);
  });
});
