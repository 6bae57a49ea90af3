import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  covariate,
  type DesignMatrix,
  designMatrix,
  factor,
  intercept,
  leastSquares,
} from '../../../../src/statistics/index.js';
import { designOf, type ReferenceModel, readReference, relativeError } from './reference-model.js';

interface FitCase extends ReferenceModel {
  readonly estimates: number[];
  readonly standardErrors: number[];
  readonly residualVariance: number;
  readonly degreesOfFreedom: number;
  readonly fitted: number[];
}

const line = designMatrix([intercept(), covariate('x', [1, 2, 3, 4])]);

function column(name: string, values: readonly number[]) {
  return { name, values };
}

describe('leastSquares(design, response)', () => {
  it('gives the line through four points worked by hand: slope 2.2, intercept -0.5, residuals 0.3, -0.4, -0.1 and 0.2, variance 0.15', () => {
    const fit = leastSquares(line, Object.freeze([2, 3.5, 6, 8.5]) as number[]);
    expect(fit.coefficients[0]!.estimate).toBeCloseTo(-0.5, 14);
    expect(fit.coefficients[1]!.estimate).toBeCloseTo(2.2, 14);
    expect(relativeError(fit.residuals, [0.3, -0.4, -0.1, 0.2])).toBeLessThan(1e-13);
    expect(fit.residualVariance).toBeCloseTo(0.15, 14);
    expect(fit.coefficients[1]!.standardError).toBeCloseTo(Math.sqrt(0.15 / 5), 14);
    expect(fit.degreesOfFreedom).toBe(2);
  });

  for (const reference of readReference<FitCase>('least-squares.json').cases) {
    it(`matches R's lm on ${reference.name} to 1e-11`, () => {
      const design = designOf(reference);
      const fit = leastSquares(design, reference.response);
      expect(design.columns.map(({ name }) => name)).toEqual(reference.columns);
      const estimates = fit.coefficients.map(({ estimate }) => estimate);
      const errors = fit.coefficients.map(({ standardError }) => standardError);
      expect(relativeError(estimates, reference.estimates)).toBeLessThan(1e-11);
      expect(relativeError(errors, reference.standardErrors)).toBeLessThan(1e-11);
      expect(relativeError(fit.fitted, reference.fitted)).toBeLessThan(1e-11);
      expect(relativeError([fit.residualVariance], [reference.residualVariance])).toBeLessThan(1e-11);
      expect(fit.degreesOfFreedom).toBe(reference.degreesOfFreedom);
    });
  }

  it('keeps its digits where columns nearly repeat one another: y = 1 + x + z exactly, z = x + 1e-6 w', () => {
    const x = [1, 2, 3, 4, 5, 6];
    const z = x.map((value, row) => value + [3, -1, 4, -1, 5, -9][row]! * 2 ** -20);
    const design = designMatrix([intercept(), covariate('x', x), covariate('z', z)]);
    const fit = leastSquares(
      design,
      x.map((value, row) => 1 + value + z[row]!),
    );
    expect(
      relativeError(
        fit.coefficients.map(({ estimate }) => estimate),
        [1, 1, 1],
      ),
    ).toBeLessThan(1e-15);
  });

  it('is the same to the last digits with columns of size 1e-150 and 1e150', () => {
    const response = [2, 3.5, 6, 8.5];
    const plain = leastSquares(line, response);
    for (const unit of [1e-150, 1e150]) {
      const scaled = leastSquares(
        designMatrix([
          intercept(),
          covariate(
            'x',
            [1, 2, 3, 4].map((value) => value * unit),
          ),
        ]),
        response,
      );
      const slope = scaled.coefficients[1]!;
      expect(relativeError([slope.estimate * unit], [plain.coefficients[1]!.estimate])).toBeLessThan(1e-14);
      expect(relativeError([slope.standardError * unit], [plain.coefficients[1]!.standardError])).toBeLessThan(1e-14);
    }
  });

  describe('refuses', () => {
    const refused = (design: DesignMatrix, response: number[]) => () => leastSquares(design, response);

    it('a column that repeats others, naming it and them', () => {
      const arms = ['a', 'b', 'a', 'b', 'a'];
      const design = designMatrix([covariate('depth', [1, 2, 3, 5, 8]), intercept(), factor('arm', arms)]);
      expect(refused(design, [1, 2, 3, 4, 6])).toThrow(
        expect.objectContaining({
          fault: 'collinear',
          message: expect.stringContaining('"arm: b" is a combination of "intercept", "arm: a"; remove one'),
        }),
      );
    });

    it('a constant covariate beside an intercept as collinear', () => {
      const design = designMatrix([intercept(), covariate('thickness', [0.1, 0.1, 0.1, 0.1])]);
      expect(refused(design, [1, 2, 3, 5])).toThrow(expect.objectContaining({ fault: 'collinear' }));
    });

    it('a column of zeros as without variation', () => {
      const design = { columns: [column('a', [1, 2, 3]), column('nothing', [0, 0, 0])] };
      expect(refused(design, [1, 2, 4])).toThrow(
        expect.objectContaining({ fault: 'no-variation', message: expect.stringContaining('"nothing"') }),
      );
    });

    it('as many coefficients as observations', () => {
      const design = { columns: [column('a', [1, 0]), column('b', [0, 1])] };
      expect(refused(design, [1, 2])).toThrow(
        expect.objectContaining({
          fault: 'too-many-parameters',
          message: expect.stringContaining('2 observations for 2 coefficients'),
        }),
      );
    });

    it.each([[Number.NaN], [Number.POSITIVE_INFINITY]])('%d in a column or the response, saying where', (bad) => {
      const design = { columns: [column('x', [1, bad, 3])] };
      expect(refused(design, [1, 2, 3])).toThrow(
        expect.objectContaining({ fault: 'not-finite', message: expect.stringContaining('"x" holds') }),
      );
      expect(refused({ columns: [column('x', [1, 2, 3])] }, [1, 2, bad])).toThrow(
        expect.objectContaining({ fault: 'not-finite', message: expect.stringContaining('at observation 3') }),
      );
    });

    it('columns of another length than the response', () => {
      const design = { columns: [column('x', [1, 2, 3])] };
      expect(refused(design, [1, 2])).toThrow(expect.objectContaining({ fault: 'lengths-differ' }));
    });

    it('no columns, and one name for two columns', () => {
      expect(refused({ columns: [] }, [1, 2])).toThrow(expect.objectContaining({ fault: 'too-few' }));
      const twice = { columns: [column('x', [1, 2, 4]), column('x', [1, 3, 2])] };
      expect(refused(twice, [1, 2, 3])).toThrow(expect.objectContaining({ fault: 'out-of-range' }));
    });

    it('a response whose squares overflow', () => {
      expect(refused(line, [1e200, -1e200, 3e200, 1e199])).toThrow(expect.objectContaining({ fault: 'out-of-range' }));
    });
  });

  describe('for any small data', () => {
    const value = fc.integer({ min: -1000, max: 1000 }).map((whole) => whole / 8);
    const data = fc
      .integer({ min: 5, max: 25 })
      .chain((rows) =>
        fc.record({
          x: fc.array(value, { minLength: rows, maxLength: rows }),
          arm: fc.array(fc.constantFrom('a', 'b', 'c'), { minLength: rows, maxLength: rows }),
          y: fc.array(value, { minLength: rows, maxLength: rows }),
        }),
      )
      .filter(({ x, arm }) => new Set(x).size > 2 && new Set(arm).size > 1);
    const fitOf = (x: readonly number[], arm: readonly string[], y: readonly number[]) => {
      try {
        return leastSquares(designMatrix([factor('arm', arm), covariate('x', x)]), y);
      } catch {
        return undefined;
      }
    };

    it('leaves residuals at right angles to every column', () => {
      fc.assert(
        fc.property(data, ({ x, arm, y }) => {
          const fit = fitOf(x, arm, y);
          fc.pre(fit !== undefined);
          for (const { values } of fit.design.columns) {
            const dot = values.reduce((sum, entry, row) => sum + entry * fit.residuals[row]!, 0);
            const size = Math.hypot(...values) * Math.hypot(...y);
            expect(Math.abs(dot)).toBeLessThanOrEqual(1e-13 * size);
          }
        }),
      );
    });

    it('moves with the response: shifted, scaled, reordered and relabelled', () => {
      fc.assert(
        fc.property(data, value, fc.constantFrom(-3, 0.25, 7), ({ x, arm, y }, shift, scale) => {
          const fit = fitOf(x, arm, y);
          fc.pre(fit !== undefined);
          const size = Math.abs(shift) + Math.hypot(...y) * 10 + 1;
          const slope = fit.coefficients.at(-1)!;
          const tolerance = 1e-10 * size * Math.max(1, Math.sqrt(fit.unscaledCovariance.at(-1)!));
          const moved = fitOf(
            x,
            arm,
            y.map((entry) => shift + scale * entry),
          )!.coefficients.at(-1)!;
          expect(Math.abs(moved.estimate - scale * slope.estimate)).toBeLessThan(Math.abs(scale) * tolerance);
          const back = fitOf([...x].reverse(), [...arm].reverse(), [...y].reverse())!;
          const relabelled = fitOf(
            x,
            arm.map((level) => ({ a: 'z', b: 'm', c: 'k' })[level] ?? level),
            y,
          )!;
          for (const other of [back, relabelled]) {
            expect(Math.abs(other.coefficients.at(-1)!.estimate - slope.estimate)).toBeLessThan(tolerance);
            expect(Math.abs(other.residualSumOfSquares - fit.residualSumOfSquares)).toBeLessThan(1e-12 * size * size);
          }
        }),
      );
    });
  });
});
