import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type IsotonicDirection,
  isotonicAt,
  isotonicRegression,
} from '../../../../src/statistics/estimation/isotonic/index.js';

interface Reference {
  isotonics: {
    name: string;
    x: number[];
    response: number[];
    weights: number[];
    direction: IsotonicDirection;
    at: number[];
    fitted: number[];
    residualSumOfSquares: number;
  }[];
}
const url = new URL('../../../reference/moisture/moisture.json', import.meta.url);
const { isotonics } = JSON.parse(readFileSync(url, 'utf8')) as Reference;

const number = fc.integer({ min: -50, max: 50 });
const rows = fc.array(fc.record({ x: number, y: number, w: fc.integer({ min: 1, max: 5 }) }), {
  minLength: 1,
  maxLength: 25,
});
const fitOf = (data: readonly { x: number; y: number; w: number }[], direction: IsotonicDirection) =>
  isotonicRegression(
    { x: data.map(({ x }) => x), response: data.map(({ y }) => y), weights: data.map(({ w }) => w) },
    direction,
  );

describe('isotonicRegression', () => {
  it.each(isotonics)("R's isoreg: $name", ({ direction, at, fitted, residualSumOfSquares, ...data }) => {
    const fit = isotonicRegression(data, direction);
    expect(fit.x).toEqual(at);
    fitted.forEach((value, k) => {
      expect(fit.fitted[k]! / value).toBeCloseTo(1, 12);
    });
    expect(fit.residualSumOfSquares / residualSumOfSquares).toBeCloseTo(1, 10);
  });

  it('isotonicRegression is in order, keeps the weighted total, and is the largest of the least means of stretches', () => {
    fc.assert(
      fc.property(rows, (data) => {
        const fit = fitOf(data, 'increasing');
        const mean = (from: number, to: number) => {
          const inside = data.filter(({ x }) => x >= from && x <= to);
          return inside.reduce((sum, { y, w }) => sum + w * y, 0) / inside.reduce((sum, { w }) => sum + w, 0);
        };
        fit.x.forEach((at, k) => {
          const starts = fit.x.filter((x) => x <= at);
          const ends = fit.x.filter((x) => x >= at);
          const maxMin = Math.max(...starts.map((from) => Math.min(...ends.map((to) => mean(from, to)))));
          expect(fit.fitted[k]).toBeCloseTo(maxMin, 9);
          if (k > 0) expect(fit.fitted[k]!).toBeGreaterThanOrEqual(fit.fitted[k - 1]!);
        });
        const total = data.reduce((sum, { y, w }) => sum + w * y, 0);
        expect(fit.levels.reduce((sum, { value, weight }) => sum + value * weight, 0)).toBeCloseTo(total, 8);
      }),
      { numRuns: 60 },
    );
  });

  it('isotonicRegression falling is the rising fit of the responses turned, whatever the order of the rows', () => {
    fc.assert(
      fc.property(rows, (data) => {
        const turned = [...data].reverse().map((row) => ({ ...row, y: -row.y }));
        const falling = fitOf(data, 'decreasing').fitted;
        fitOf(turned, 'increasing').fitted.forEach((value, k) => {
          expect(-value).toBeCloseTo(falling[k]!, 9);
        });
      }),
      { numRuns: 60 },
    );
  });

  it.each([
    [{ x: [], response: [] }, 'too-few'],
    [{ x: [1, 2], response: [1] }, 'lengths-differ'],
    [{ x: [1, Number.NaN], response: [1, 2] }, 'not-finite'],
    [{ x: [1, 2], response: [1, 2], weights: [1, 0] }, 'out-of-range'],
  ])('isotonicRegression(%j) is refused: %s', (data, fault) => {
    expect(() => isotonicRegression(data, 'increasing')).toThrow(expect.objectContaining({ fault }));
  });
});

describe('isotonicAt', () => {
  const fit = isotonicRegression({ x: [1, 3, 4], response: [2, 6, 5] }, 'increasing');
  it('isotonicAt steps or goes straight between the points, worked by hand', () => {
    expect(isotonicAt(fit, 2, 'step')).toBe(2);
    expect(isotonicAt(fit, 2, 'interpolated')).toBe(3.75);
    expect(isotonicAt(fit, 4, 'interpolated')).toBe(5.5);
  });
  it.each([0.5, 4.5, Number.NaN])('isotonicAt(fit, %d) is refused outside the observations', (at) => {
    expect(() => isotonicAt(fit, at, 'step')).toThrow(expect.objectContaining({ fault: 'out-of-range' }));
  });
});
