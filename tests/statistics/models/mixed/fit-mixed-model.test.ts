import { describe, expect, it } from 'vitest';
import { fitMixedModel } from '../../../../src/statistics/models/mixed/fit-mixed-model.js';
import { type Estimates, mixedModelCases, modelOf, relativeError } from './reference-cases.js';

const cases = mixedModelCases();

/** A standard deviation that lme4 reports as zero must be zero here; others agree to six digits. */
function worstDeviation(fit: ReturnType<typeof fitMixedModel>, expected: Estimates): number {
  const errors = fit.random.flatMap(({ standardDeviations }, at) =>
    standardDeviations.map((sd, column) => {
      const reference = expected.terms[at]!.standardDeviations[column]!;
      return reference === 0 ? sd : relativeError(sd, reference);
    }),
  );
  return Math.max(...errors);
}

function worst(actual: readonly number[], expected: readonly number[]): number {
  expect(actual).toHaveLength(expected.length);
  return Math.max(...expected.map((value, at) => relativeError(actual[at]!, value)));
}

describe.each(cases)('fitMixedModel matches lme4: $name', (example) => {
  it.each(['reml', 'ml'] as const)('by %s', (method) => {
    const expected = example[method];
    const fit = fitMixedModel(modelOf(example, method));
    const estimates = fit.coefficients.map(({ estimate }) => estimate);
    const errors = fit.coefficients.map(({ standardError }) => standardError);
    expect(worst(estimates, expected.coefficients)).toBeLessThan(1e-6);
    expect(worst(errors, expected.standardErrors)).toBeLessThan(1e-6);
    expect(worstDeviation(fit, expected)).toBeLessThan(1e-6);
    expect(
      fit.residual.kind === 'equal' && relativeError(fit.residual.standardDeviation, expected.residual),
    ).toBeLessThan(1e-6);
    expect(relativeError(fit.logLikelihood, expected.logLikelihood)).toBeLessThan(1e-9);
    expect(fit.boundary.length > 0).toBe(method === 'reml' ? example.boundary : example.boundaryUnderMl);
    expect(fit.optimiser.converged).toBe(true);
  });

  it('with the conditional modes of its random effects', () => {
    const { random } = fitMixedModel(modelOf(example, 'reml'));
    for (const { levels, effects } of Object.values(example.modes)) {
      // Terms of one grouping stand side by side in lme4's table.
      const terms = random.filter(
        ({ modes }) => modes.length === levels.length && modes.every((m) => levels.includes(m.level)),
      );
      const scale = Math.max(1e-6, ...effects.flat().map(Math.abs));
      levels.forEach((level, row) => {
        const found = terms.flatMap(({ modes }) => modes.find((mode) => mode.level === level)!.effects);
        expect(found).toHaveLength(effects[row]!.length);
        found.forEach((effect, column) => {
          expect(Math.abs(effect - effects[row]![column]!)).toBeLessThan(1e-6 * scale);
        });
      });
    }
  });
});
