import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitMixedModel } from '../../../../src/statistics/models/mixed/fit-mixed-model.js';
import { kenwardRoger } from '../../../../src/statistics/models/mixed/kenward-roger.js';
import type { MixedModel } from '../../../../src/statistics/models/mixed/mixed-model.js';
import type { MixedModelFit } from '../../../../src/statistics/models/mixed/mixed-model-fit.js';
import { satterthwaite } from '../../../../src/statistics/models/mixed/satterthwaite.js';
import { normalDraws, randomStream } from '../../../../src/statistics/resampling/random/index.js';
import { relativeError } from './reference-cases.js';
import { arbitraryModel, modelOfShape, simulatedTrial } from './simulated-models.js';

const runs = { numRuns: 25, seed: 20240202 };

function standardDeviations(fit: MixedModelFit): number[] {
  return fit.random.flatMap((term) => term.standardDeviations).concat(residualDeviations(fit));
}

function residualDeviations({ residual }: MixedModelFit): number[] {
  if (!('groups' in residual)) return [residual.standardDeviation];
  return [...residual.groups].sort((a, b) => (a.group < b.group ? -1 : 1)).map((group) => group.standardDeviation);
}

/** Components, standard errors and degrees of freedom: everything that a shift of the response leaves alone. */
function spread(fit: MixedModelFit): number[] {
  const errors = fit.coefficients.map(({ standardError }) => standardError);
  return [...standardDeviations(fit), ...errors];
}

function expectClose(actual: readonly number[], expected: readonly number[], tolerance: number): void {
  expect(actual).toHaveLength(expected.length);
  actual.forEach((value, at) => {
    expect(Math.abs(value - expected[at]!)).toBeLessThan(tolerance * (1 + Math.abs(expected[at]!)));
  });
}

function permuted(model: MixedModel, order: readonly number[]): MixedModel {
  const pick = <T>(values: readonly T[]): T[] => order.map((row) => values[row]!);
  const { residual } = model;
  return {
    ...model,
    response: pick(model.response),
    fixed: { columns: model.fixed.columns.map(({ name, values }) => ({ name, values: pick(values) })) },
    random: model.random.map((term) => ({
      ...term,
      groups: pick(term.groups),
      ...(term.columns && { columns: term.columns.map(({ name, values }) => ({ name, values: pick(values) })) }),
    })),
    ...(residual?.kind === 'by-group' && { residual: { ...residual, groups: pick(residual.groups) } }),
    ...(residual?.kind === 'autoregressive' && {
      residual: { ...residual, series: pick(residual.series), steps: pick(residual.steps) },
    }),
    ...(residual?.kind === 'autoregressive-by-group' && {
      residual: {
        ...residual,
        series: pick(residual.series),
        steps: pick(residual.steps),
        groups: pick(residual.groups),
      },
    }),
  };
}

describe('fitMixedModel', () => {
  it('is shifted with the response, and nothing else changes', () => {
    fc.assert(
      fc.property(arbitraryModel, fc.double({ min: -1e3, max: 1e3, noNaN: true }), (model, shift) => {
        const fit = fitMixedModel(model);
        const moved = fitMixedModel({ ...model, response: model.response.map((value) => value + shift) });
        expectClose(spread(moved), spread(fit), 1e-6);
        expectClose([moved.coefficients[0]!.estimate - shift], [fit.coefficients[0]!.estimate], 1e-7);
        expectClose(moved.residuals, fit.residuals, 1e-6);
      }),
      runs,
    );
  });

  it('is scaled with the response, the log-likelihood by the logarithm of the scale', () => {
    fc.assert(
      fc.property(arbitraryModel, fc.constantFrom(1e-6, 0.01, 37, 1e5), (model, scale) => {
        const fit = fitMixedModel(model);
        const scaled = fitMixedModel({ ...model, response: model.response.map((value) => value * scale) });
        expectClose(
          spread(scaled).map((value) => value / scale),
          spread(fit),
          1e-7,
        );
        const count = fit.observations - (model.method === 'reml' ? fit.coefficients.length : 0);
        expectClose([scaled.logLikelihood + count * Math.log(scale)], [fit.logLikelihood], 1e-8);
      }),
      runs,
    );
  });

  it('does not depend on the order of the rows', () => {
    fc.assert(
      fc.property(arbitraryModel, fc.integer({ min: 1, max: 1e6 }), (model, seed) => {
        const keys = normalDraws(randomStream(seed), model.response.length);
        const order = model.response.map((_, row) => row).sort((a, b) => keys[a]! - keys[b]!);
        const fit = fitMixedModel(model);
        const shuffled = fitMixedModel(permuted(model, order));
        expectClose(spread(shuffled), spread(fit), 1e-6);
        expectClose([shuffled.logLikelihood], [fit.logLikelihood], 1e-9);
        const effects = ({ random }: MixedModelFit) =>
          random.flatMap(({ modes }) =>
            [...modes].sort((a, b) => (a.level < b.level ? -1 : 1)).flatMap((m) => m.effects),
          );
        expectClose(effects(shuffled), effects(fit), 1e-6);
      }),
      runs,
    );
  });

  it('does not depend on what the levels are called', () => {
    fc.assert(
      fc.property(arbitraryModel, (model) => {
        const rename = (label: string | number) => `level of ${String(label).split('').reverse().join('')}`;
        const renamed = {
          ...model,
          random: model.random.map((term) => ({ ...term, groups: term.groups.map(rename) })),
        };
        expect(spread(fitMixedModel(renamed))).toEqual(spread(fitMixedModel(model)));
      }),
      runs,
    );
  });

  it('does not depend on the unit or, with unstructured covariance, the origin of a slope', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), fc.constantFrom(0, 2024), (seed, origin) => {
        const model = modelOfShape(simulatedTrial(seed, 6, 3, 5), 'slopes', 'reml');
        const moved = (column: { readonly name: string; readonly values: readonly number[] }) =>
          column.name === 'time' ? { ...column, values: column.values.map((value) => value / 365 + origin) } : column;
        const fit = fitMixedModel(model);
        const other = fitMixedModel({
          ...model,
          fixed: { columns: model.fixed.columns.map(moved) },
          random: model.random.map((term) => ({ ...term, ...(term.columns && { columns: term.columns.map(moved) }) })),
        });
        expectClose([other.random[0]!.standardDeviations[1]! / 365], [fit.random[0]!.standardDeviations[1]!], 1e-6);
        expectClose([other.logLikelihood - Math.log(365)], [fit.logLikelihood], 1e-7);
        expectClose(other.fitted, fit.fitted, 1e-6);
      }),
      runs,
    );
  });

  it('gives the estimators of the balanced one-way analysis of variance', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1e6 }),
        fc.integer({ min: 3, max: 9 }),
        fc.integer({ min: 2, max: 6 }),
        (seed, walls, each) => {
          const stream = randomStream(seed);
          const effects = normalDraws(stream, walls);
          const noise = normalDraws(stream, walls * each);
          const groups = Array.from(noise, (_, row) => `wall ${Math.floor(row / each)}`);
          const response = Array.from(noise, (value, row) => 5 + effects[Math.floor(row / each)]! + value);
          const { between, within } = meanSquares(response, each);
          const fit = fitMixedModel({
            response,
            fixed: { columns: [{ name: 'intercept', values: response.map(() => 1) }] },
            random: [{ name: 'wall', groups }],
            method: 'reml',
          });
          const pooled = (between * (walls - 1) + within * walls * (each - 1)) / (walls * each - 1);
          const expected =
            between > within ? [Math.sqrt((between - within) / each), Math.sqrt(within)] : [0, Math.sqrt(pooled)];
          expectClose(standardDeviations(fit), expected, 1e-8);
          expect(fit.boundary).toEqual(between > within ? [] : ['wall']);
          if (between > within) {
            expect(relativeError(satterthwaite(fit, { intercept: 1 }).degreesOfFreedom, walls - 1)).toBeLessThan(1e-6);
            expect(relativeError(kenwardRoger(fit, { intercept: 1 }).degreesOfFreedom, walls - 1)).toBeLessThan(1e-8);
          }
        },
      ),
      { numRuns: 60, seed: 20240203 },
    );
  });

  it('gives residuals that are the response less the fitted values', () => {
    const model = modelOfShape(simulatedTrial(3, 6, 3, 5), 'crossed', 'reml');
    const fit = fitMixedModel(model);
    const modes = fit.random.map((term) => new Map(term.modes.map(({ level, effects }) => [level, effects[0]!])));
    model.response.forEach((value, row) => {
      const fixed = fit.coefficients.reduce(
        (sum, c, at) => sum + c.estimate * model.fixed.columns[at]!.values[row]!,
        0,
      );
      const random = model.random.reduce((sum, term, at) => sum + modes[at]!.get(String(term.groups[row]))!, 0);
      expect(Math.abs(fit.residuals[row]! - (value - fixed - random))).toBeLessThan(1e-12);
    });
  });

  it('leaves its input alone', () => {
    const model = modelOfShape(simulatedTrial(3, 6, 3, 5), 'autoregressive', 'reml');
    const before = structuredClone(model);
    fitMixedModel(model);
    expect(model).toEqual(before);
  });
});

function meanSquares(response: readonly number[], each: number): { readonly between: number; readonly within: number } {
  const walls = response.length / each;
  const means = Array.from({ length: walls }, (_, wall) => average(response.slice(wall * each, (wall + 1) * each)));
  const grand = average(means);
  const between = (each * means.reduce((sum, mean) => sum + (mean - grand) ** 2, 0)) / (walls - 1);
  const squares = response.reduce((sum, value, row) => sum + (value - means[Math.floor(row / each)]!) ** 2, 0);
  return { between, within: squares / (walls * (each - 1)) };
}

function average(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
