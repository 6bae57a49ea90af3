import { describe, expect, it } from 'vitest';
import {
  covariate,
  designMatrix,
  differenceOfWeights,
  estimatedMeans,
  factor,
  interaction,
  intercept,
  leastSquares,
  meanDifferences,
  meanWeights,
} from '../../../../src/statistics/index.js';
import { designOf, type ReferenceModel, readReference, relativeError, termsOf } from './reference-model.js';

interface MeansCase extends ReferenceModel {
  readonly means: readonly {
    readonly factor: string;
    readonly levels: string[];
    readonly means: number[];
    readonly standardErrors: number[];
    readonly lower: number[];
    readonly upper: number[];
    readonly differences: readonly {
      readonly first: string;
      readonly second: string;
      readonly estimate: number;
      readonly standardError: number;
      readonly lower: number;
      readonly upper: number;
      readonly pValue: number;
    }[];
  }[];
}

describe('estimatedMeans and meanDifferences(fit, terms, factor)', () => {
  for (const reference of readReference<MeansCase>('estimated-means.json').cases) {
    const fit = leastSquares(designOf(reference), reference.response);
    const terms = termsOf(reference);
    for (const expected of reference.means) {
      it(`match R's emmeans of ${expected.factor} on ${reference.name} to 1e-10`, () => {
        const found = estimatedMeans(fit, terms, expected.factor);
        expect(found.map(({ level }) => level)).toEqual(expected.levels);
        expect(
          relativeError(
            found.map((one) => one.estimate),
            expected.means,
          ),
        ).toBeLessThan(1e-10);
        expect(
          relativeError(
            found.map((one) => one.standardError),
            expected.standardErrors,
          ),
        ).toBeLessThan(1e-10);
        expect(
          relativeError(
            found.map((one) => one.interval.lower),
            expected.lower,
          ),
        ).toBeLessThan(1e-10);
        expect(
          relativeError(
            found.map((one) => one.interval.upper),
            expected.upper,
          ),
        ).toBeLessThan(1e-10);
      });

      it(`match R's pairwise differences of ${expected.factor} on ${reference.name} to 1e-9`, () => {
        const found = meanDifferences(fit, terms, expected.factor);
        expect(found.map(({ first, second }) => [first, second])).toEqual(
          expected.differences.map(({ first, second }) => [first, second]),
        );
        found.forEach(({ estimate, standardError, interval, pValue }, i) => {
          const one = expected.differences[i]!;
          const values = [estimate, standardError, interval.lower, interval.upper, pValue];
          const wanted = [one.estimate, one.standardError, one.lower, one.upper, one.pValue];
          expect(relativeError(values, wanted)).toBeLessThan(1e-9);
        });
      });
    }
  }

  it('take the level of the interval', () => {
    const terms = [intercept(), factor('arm', ['a', 'b', 'b', 'a'], { reference: 'a' })];
    const fit = leastSquares(designMatrix(terms), [1, 2, 4, 3]);
    expect(estimatedMeans(fit, terms, 'arm', { level: 0.5 })[0]!.interval.level).toBe(0.5);
    expect(meanDifferences(fit, terms, 'arm', { level: 0.5 })[0]!.interval.level).toBe(0.5);
  });
});

describe('meanWeights(terms, factor)', () => {
  const arm = factor('arm', ['a', 'b', 'b', 'a'], { reference: 'a' });
  const block = factor('block', ['x', 'x', 'y', 'x'], { reference: 'x' });
  const before = covariate('before', [1, 2, 3, 6]);

  it('counts other levels equally and holds covariates at their mean', () => {
    const weights = meanWeights([intercept(), arm, block, before, interaction(arm, before)], 'arm');
    expect(weights).toEqual([
      { level: 'a', weights: { intercept: 1, 'block: y': 0.5, before: 3 } },
      { level: 'b', weights: { intercept: 1, 'arm: b': 1, 'block: y': 0.5, before: 3, 'arm: b × before': 3 } },
    ]);
  });

  it('subtract to the weights of a difference', () => {
    const [a, b] = meanWeights([intercept(), arm, block], 'arm');
    expect(differenceOfWeights(b!.weights, a!.weights)).toEqual({ intercept: 0, 'arm: b': 1, 'block: y': 0 });
  });

  it('refuses a name that is no factor, saying which there are', () => {
    expect(() => meanWeights([intercept(), arm, before], 'before')).toThrow(
      expect.objectContaining({
        fault: 'out-of-range',
        message: expect.stringContaining('got "before"; factors: "arm"'),
      }),
    );
  });

  it('refuses two different factors of one name', () => {
    const other = factor('arm', ['c', 'd', 'd', 'c']);
    expect(() => meanWeights([arm, interaction(other, before)], 'arm')).toThrow(
      expect.objectContaining({ fault: 'out-of-range', message: expect.stringContaining('two different ones') }),
    );
  });
});
