import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimalsFor, formatNumber, formatPValue, formatSigned, formatStated } from '../../src/words/format-number.js';

describe('formatNumber(value, decimals)', () => {
  it.each([
    [-2.6, 2, '−2.60'],
    [0, 1, '0.0'],
    [-0.001, 2, '0.00'],
    [9999, 0, '9999'],
    [12_345.678, 1, '12\u202f345.7'],
    [-1_234_567, 0, '−1\u202f234\u202f567'],
    [3.2e-9, 10, '3.20 × 10⁻⁹'],
    [-1.5e20, 0, '−1.50 × 10²⁰'],
  ])('writes %d to %d decimals as %s', (value, decimals, text) => {
    expect(formatNumber(value, decimals)).toBe(text);
  });

  it('refuses what is not a number', () => {
    expect(() => formatNumber(Number.NaN, 2)).toThrow(RangeError);
    expect(() => formatNumber(Number.POSITIVE_INFINITY, 2)).toThrow(RangeError);
  });

  it('always reads back as the rounded value', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e12, max: 1e12, noNaN: true }),
        fc.integer({ min: 0, max: 6 }),
        (value, decimals) => {
          const text = formatNumber(value, decimals).replace('−', '-').replaceAll('\u202f', '');
          expect(Math.abs(Number(text) - value)).toBeLessThanOrEqual(
            0.5 * 10 ** -decimals * (1 + 1e-9) + Math.abs(value) * 1e-15,
          );
          expect(text).not.toMatch(/^-0(\.0*)?$/);
        },
      ),
    );
  });
});

describe('formatSigned, formatStated, decimalsFor, formatPValue', () => {
  it('formatSigned puts a plus before what is above zero after rounding', () => {
    expect([0.31, -0.31, 0, 0.001].map((value) => formatSigned(value, 2))).toEqual(['+0.31', '−0.31', '0.00', '0.00']);
  });

  it('formatStated keeps the decimals that were stated', () => {
    expect([2, -1.5, 0.25, 1e-9].map(formatStated)).toEqual(['2', '−1.5', '0.25', '1.00 × 10⁻⁹']);
  });

  it('decimalsFor(width) shows two significant digits of the width', () => {
    expect([0.8, 1.2, 12, 0.034, 0, Number.NaN].map(decimalsFor)).toEqual([2, 1, 0, 3, 2, 2]);
  });

  it('formatPValue never says that p is zero', () => {
    expect([0, 0.0004, 0.0314, 0.31, 1].map(formatPValue)).toEqual([
      'p < 0.001',
      'p < 0.001',
      'p = 0.031',
      'p = 0.31',
      'p = 1.00',
    ]);
  });
});
