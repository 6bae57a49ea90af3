import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leastSquares } from '../../../../src/statistics/models/linear/least-squares.js';
import { checkedGroupings } from '../../../../src/statistics/models/mixed/check-mixed-model.js';
import { deviance } from '../../../../src/statistics/models/mixed/deviance.js';
import { devianceProblem } from '../../../../src/statistics/models/mixed/deviance-problem.js';
import { fitMixedModel } from '../../../../src/statistics/models/mixed/fit-mixed-model.js';
import { normalDraws, randomStream } from '../../../../src/statistics/resampling/random/index.js';
import { componentsOf, denseLikelihood } from './dense-likelihood.js';
import { arbitraryModel, modelOfShape, shapes, simulatedTrial } from './simulated-models.js';

const runs = { numRuns: 30, seed: 20240201 };

describe('fitMixedModel against the likelihood written out for all observations at once', () => {
  it('reports the log-likelihood, coefficients and covariance that belong to its components', () => {
    fc.assert(
      fc.property(arbitraryModel, (model) => {
        const fit = fitMixedModel(model);
        const dense = denseLikelihood(model, componentsOf(fit));
        expect(Math.abs(fit.logLikelihood - dense.logLikelihood)).toBeLessThan(1e-8);
        fit.coefficients.forEach(({ estimate, standardError }, at) => {
          expect(Math.abs(estimate - dense.coefficients[at]!)).toBeLessThan(1e-8);
          expect(Math.abs(standardError - Math.sqrt(dense.covariance[at]![at]!))).toBeLessThan(1e-8);
        });
      }),
      runs,
    );
  });

  it('finds components that no change of any of them makes more likely', () => {
    fc.assert(
      fc.property(arbitraryModel, fc.constantFrom(0.97, 1.03), (model, change) => {
        const fit = fitMixedModel(model);
        const { terms, residual } = componentsOf(fit);
        const least = fit.logLikelihood + 1e-9;
        terms.forEach((_, at) => {
          const changed = terms.map((matrix, other) =>
            matrix.map((row) => row.map((v) => (other === at ? v * change : v))),
          );
          expect(denseLikelihood(model, { terms: changed, residual }).logLikelihood).toBeLessThan(least);
          // A larger variance where there is room for one, also at a boundary.
          const raised = terms.map((matrix, other) =>
            matrix.map((row, i) => row.map((v, j) => (other === at && i === j ? v + 1e-3 : v))),
          );
          expect(denseLikelihood(model, { terms: raised, residual }).logLikelihood).toBeLessThan(least);
        });
        const louder = (row: number, column: number) => change * residual(row, column);
        expect(denseLikelihood(model, { terms, residual: louder }).logLikelihood).toBeLessThan(least);
      }),
      runs,
    );
  });

  it.each(shapes)('has the gradient that differences of the deviance have: %s', (shape) => {
    const model = modelOfShape(simulatedTrial(11, 6, 3, 5), shape, 'reml');
    const problem = devianceProblem(model, checkedGroupings(model), leastSquares(model.fixed, model.response), 1);
    const size = problem.entries.length + problem.residual.start.length;
    const point = normalDraws(randomStream(5), size).map((draw) => 0.6 + 0.3 * draw);
    const { gradient } = deviance(problem, point)!;
    gradient.forEach((slope, at) => {
      const width = 1e-4;
      const beside = (reach: number) =>
        deviance(
          problem,
          point.map((v, k) => (k === at ? v + reach : v)),
        )!.deviance;
      const central = (8 * (beside(width) - beside(-width)) - (beside(2 * width) - beside(-2 * width))) / (12 * width);
      expect(Math.abs(slope - central)).toBeLessThan(1e-7 * (1 + Math.abs(central)));
    });
  });
});
