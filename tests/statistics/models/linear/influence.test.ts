import { describe, expect, it } from 'vitest';
import {
  covariate,
  designMatrix,
  factor,
  influence,
  intercept,
  leastSquares,
} from '../../../../src/statistics/index.js';
import { designOf, type ReferenceModel, readReference, relativeError } from './reference-model.js';

interface InfluenceCase extends ReferenceModel {
  readonly leverages: number[];
  readonly standardised: number[];
  readonly studentised: number[];
  readonly cooksDistances: number[];
  readonly coefficientChanges: number[][];
}

const missing = Number.NaN;

describe('influence(fit)', () => {
  for (const reference of readReference<InfluenceCase>('influence.json').cases) {
    it(`matches R's hatvalues, rstandard, rstudent, cooks.distance and dfbeta on ${reference.name} to 1e-10`, () => {
      const rows = influence(leastSquares(designOf(reference), reference.response));
      const pairs: [number[], number[]][] = [
        [rows.map((row) => row.leverage), reference.leverages],
        [rows.map((row) => row.standardisedResidual ?? missing), reference.standardised],
        [rows.map((row) => row.studentisedResidual ?? missing), reference.studentised],
        [rows.map((row) => row.cooksDistance ?? missing), reference.cooksDistances],
        [rows.flatMap((row) => row.coefficientChange ?? missing), reference.coefficientChanges.flat()],
      ];
      for (const [found, expected] of pairs) {
        // Residuals near zero keep absolute, not relative, digits.
        const floor = 1e-3 * Math.max(...expected.map(Math.abs));
        expect(relativeError(found, expected, floor)).toBeLessThan(1e-10);
      }
    });
  }

  it('equals leaving each observation out and fitting anew', () => {
    const x = [1, 2, 3, 4, 10];
    const y = [2, 1, 4, 3, 9];
    const fit = leastSquares(designMatrix([intercept(), covariate('x', x)]), y);
    influence(fit).forEach(({ coefficientChange }, left) => {
      const kept = <Value>(values: readonly Value[]) => values.filter((_, row) => row !== left);
      const without = leastSquares(designMatrix([intercept(), covariate('x', kept(x))]), kept(y));
      without.coefficients.forEach(({ estimate }, i) => {
        expect(coefficientChange![i]!).toBeCloseTo(fit.coefficients[i]!.estimate - estimate, 12);
      });
    });
  });

  it('gives an observation that alone decides a coefficient its leverage of 1 and nothing that cannot be told', () => {
    const arms = ['a', 'a', 'a', 'alone'];
    const rows = influence(leastSquares(designMatrix([factor('arm', arms)]), [1, 2, 4, 9]));
    expect(rows[3]).toEqual({ leverage: 1 });
    expect(rows[0]).toHaveProperty('cooksDistance');
  });

  it('leaves the externally studentised residual out where the others do not vary or leave no degrees of freedom', () => {
    const outlier = influence(leastSquares(designMatrix([factor('wall', ['w', 'w', 'w', 'w'])]), [5, 5, 5, 8]));
    expect(outlier[3]).not.toHaveProperty('studentisedResidual');
    expect(outlier[0]).toHaveProperty('studentisedResidual');
    const two = influence(leastSquares(designMatrix([factor('wall', ['w', 'w'])]), [5, 6]));
    expect(two[0]).not.toHaveProperty('studentisedResidual');
  });

  it('refuses a fit without residuals', () => {
    const exact = leastSquares(designMatrix([factor('arm', ['a', 'b', 'b'])]), [1, 2, 2]);
    expect(() => influence(exact)).toThrow(expect.objectContaining({ fault: 'no-variation' }));
  });
});
