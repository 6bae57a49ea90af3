import { describe, expect, it } from 'vitest';
import {
  contrast,
  covariate,
  designMatrix,
  factor,
  intercept,
  leastSquares,
} from '../../../../src/statistics/index.js';
import { designOf, type ReferenceModel, readReference, relativeError } from './reference-model.js';

interface ContrastCase extends ReferenceModel {
  readonly contrasts: readonly {
    readonly weights: Record<string, number>;
    readonly level: number;
    readonly estimate: number;
    readonly standardError: number;
    readonly degreesOfFreedom: number;
    readonly statistic: number;
    readonly pValue: number;
    readonly lower: number;
    readonly upper: number;
  }[];
}

const arms = ['control', 'treated', 'control', 'treated', 'treated'];
const fit = leastSquares(designMatrix([intercept(), factor('arm', arms, { reference: 'control' })]), [1, 3, 2, 4, 6]);

describe('contrast(fit, weights)', () => {
  for (const reference of readReference<ContrastCase>('least-squares.json').cases) {
    it(`matches R's coef, vcov and qt on ${reference.name} to 1e-10`, () => {
      const fitted = leastSquares(designOf(reference), reference.response);
      for (const expected of reference.contrasts) {
        const found = contrast(fitted, expected.weights, { level: expected.level });
        const { estimate, standardError, statistic, pValue, interval } = found;
        expect(
          relativeError(
            [estimate, standardError, statistic, pValue, interval.lower, interval.upper],
            [
              expected.estimate,
              expected.standardError,
              expected.statistic,
              expected.pValue,
              expected.lower,
              expected.upper,
            ],
          ),
        ).toBeLessThan(1e-10);
        expect(found.degreesOfFreedom).toBe(expected.degreesOfFreedom);
        expect(interval.level).toBe(expected.level);
      }
    });
  }

  it('changes sign with the weights and scales with them', () => {
    const once = contrast(fit, { 'arm: treated': 1 });
    const turned = contrast(fit, { 'arm: treated': -2 });
    expect(turned.estimate).toBeCloseTo(-2 * once.estimate, 13);
    expect(turned.standardError).toBeCloseTo(2 * once.standardError, 13);
    expect(turned.interval.lower).toBeCloseTo(-2 * once.interval.upper, 12);
    expect(turned.pValue).toBeCloseTo(once.pValue, 13);
  });

  it('does not depend on which level is the reference', () => {
    const other = leastSquares(
      designMatrix([intercept(), factor('arm', arms, { reference: 'treated' })]),
      [1, 3, 2, 4, 6],
    );
    const found = contrast(other, { 'arm: control': -1 });
    expect(found.estimate).toBeCloseTo(contrast(fit, { 'arm: treated': 1 }).estimate, 13);
    expect(found.standardError).toBeCloseTo(contrast(fit, { 'arm: treated': 1 }).standardError, 13);
  });

  it.each([
    [
      'a name that is no column',
      { 'arm: sham': 1 },
      'out-of-range',
      '"arm: sham"; the columns are "intercept", "arm: treated"',
    ],
    ['a weight that is not finite', { intercept: Number.NaN }, 'not-finite', 'got NaN for "intercept"'],
    ['no weights', {}, 'out-of-range', 'at least one weight'],
  ])('refuses %s', (_what, weights, fault, words) => {
    expect(() => contrast(fit, weights)).toThrow(
      expect.objectContaining({ fault, message: expect.stringContaining(words) }),
    );
  });

  it.each([0, 1, 95, Number.NaN])('refuses the level %d', (level) => {
    expect(() => contrast(fit, { intercept: 1 }, { level })).toThrow(
      expect.objectContaining({ fault: 'out-of-range' }),
    );
  });

  it('refuses to judge a fit without residuals', () => {
    const exact = leastSquares(designMatrix([intercept(), covariate('x', [1, 2, 3, 4])]), [0.3, 0.5, 0.7, 0.9]);
    expect(() => contrast(exact, { x: 1 })).toThrow(expect.objectContaining({ fault: 'no-variation' }));
  });
});
