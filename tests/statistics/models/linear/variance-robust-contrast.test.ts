import { describe, expect, it } from 'vitest';
import {
  contrast,
  designMatrix,
  factor,
  intercept,
  leastSquares,
  studentT,
  varianceRobustContrast,
} from '../../../../src/statistics/index.js';
import { designOf, type ReferenceModel, readReference, relativeError } from './reference-model.js';

interface VarianceRobustCase extends ReferenceModel {
  readonly varianceRobust: readonly {
    readonly weights: Record<string, number>;
    readonly standardError: number;
    readonly pValue: number;
    readonly matchedDegreesOfFreedom: number;
  }[];
}

describe('varianceRobustContrast(fit, weights)', () => {
  for (const reference of readReference<VarianceRobustCase>('influence.json').cases) {
    it(`matches the HC3 covariance of R's package sandwich on ${reference.name} to 1e-10`, () => {
      const fit = leastSquares(designOf(reference), reference.response);
      for (const expected of reference.varianceRobust) {
        const found = varianceRobustContrast(fit, expected.weights, { reference: 'customary' });
        expect(
          relativeError([found.standardError, found.pValue], [expected.standardError, expected.pValue]),
        ).toBeLessThan(1e-10);
      }
    });

    it(`matches the degrees of freedom that R's package clubSandwich gives HC3 on ${reference.name} to 1e-8`, () => {
      const fit = leastSquares(designOf(reference), reference.response);
      for (const { weights, matchedDegreesOfFreedom } of reference.varianceRobust) {
        const found = varianceRobustContrast(fit, weights).degreesOfFreedom;
        expect(relativeError([found], [matchedDegreesOfFreedom])).toBeLessThan(1e-8);
      }
    });
  }

  it('has the interval and p-value of the pooled t test for two arms of equal size', () => {
    const a = [1, 2, 6, 4];
    const b = [4, 10, 3, 9];
    const arms = [...a.map(() => 'a'), ...b.map(() => 'b')];
    const fit = leastSquares(designMatrix([intercept(), factor('arm', arms, { reference: 'a' })]), [...a, ...b]);
    const found = varianceRobustContrast(fit, { 'arm: b': 1 });
    const pooled = contrast(fit, { 'arm: b': 1 });
    expect(found.degreesOfFreedom).toBeCloseTo(6, 10);
    expect(found.pValue).toBeCloseTo(pooled.pValue, 12);
    expect(found.interval.lower).toBeCloseTo(pooled.interval.lower, 10);
    expect(found.interval.upper).toBeCloseTo(pooled.interval.upper, 10);
    // HC3 itself is too large by n / (n - 1) in variance.
    expect(found.standardError).toBeCloseTo(pooled.standardError, 10);
    expect(varianceRobustContrast(fit, { 'arm: b': 1 }, { reference: 'customary' }).standardError).toBeCloseTo(
      pooled.standardError * Math.sqrt(4 / 3),
      10,
    );
  });

  it('gives the standard error and statistic of which its interval and p-value are made, by either reference', () => {
    for (const reference of readReference<VarianceRobustCase>('influence.json').cases) {
      const fit = leastSquares(designOf(reference), reference.response);
      for (const { weights } of reference.varianceRobust) {
        for (const kind of ['matched', 'customary'] as const) {
          const found = varianceRobustContrast(fit, weights, { reference: kind });
          const t = studentT(found.degreesOfFreedom);
          const reach = t.upperQuantile(0.025) * found.standardError;
          expect(found.interval.lower).toBeCloseTo(found.estimate - reach, 10);
          expect(found.interval.upper).toBeCloseTo(found.estimate + reach, 10);
          expect(found.statistic).toBeCloseTo(found.estimate / found.standardError, 10);
          expect(found.pValue).toBeCloseTo(2 * t.upperTail(Math.abs(found.statistic)), 12);
        }
      }
    }
  });

  it('equals, for two groups worked by hand, the root of the sums of squares over (n - 1) squared', () => {
    const arms = ['a', 'a', 'a', 'b', 'b'];
    const fit = leastSquares(designMatrix([intercept(), factor('arm', arms, { reference: 'a' })]), [1, 2, 6, 4, 10]);
    // Squares around the means 3 and 7: 14 and 18; each residual over 1 - 1/n, then over n.
    const expected = Math.sqrt(14 / 2 ** 2 + 18 / 1 ** 2);
    expect(varianceRobustContrast(fit, { 'arm: b': 1 }, { reference: 'customary' }).standardError).toBeCloseTo(
      expected,
      12,
    );
  });

  it('refuses an observation that alone decides a coefficient, naming it', () => {
    const fit = leastSquares(designMatrix([factor('arm', ['a', 'a', 'alone', 'a'])]), [1, 2, 9, 4]);
    expect(() => varianceRobustContrast(fit, { 'arm: a': 1 })).toThrow(
      expect.objectContaining({ fault: 'too-few', message: expect.stringContaining('observation 3 has leverage 1') }),
    );
  });

  it('refuses a fit without residuals', () => {
    const exact = leastSquares(designMatrix([factor('arm', ['a', 'b', 'b', 'a'])]), [1, 2, 2, 1]);
    expect(() => varianceRobustContrast(exact, { 'arm: a': 1 })).toThrow(
      expect.objectContaining({ fault: 'no-variation' }),
    );
  });
});
