import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { DesignColumn } from '../../../../src/statistics/models/linear/design-matrix.js';
import { fitMixedModel } from '../../../../src/statistics/models/mixed/fit-mixed-model.js';
import { intraclassCorrelation } from '../../../../src/statistics/models/mixed/intraclass-correlation.js';
import { likelihoodRatioTest } from '../../../../src/statistics/models/mixed/likelihood-ratio-test.js';
import type { MixedModel } from '../../../../src/statistics/models/mixed/mixed-model.js';
import { parametricBootstrapTest } from '../../../../src/statistics/models/mixed/parametric-bootstrap-test.js';
import { simulateResponse } from '../../../../src/statistics/models/mixed/simulate-response.js';
import { randomStream } from '../../../../src/statistics/resampling/random/index.js';
import { isStatisticsError } from '../../../../src/statistics/statistics-error.js';
import { componentsOf } from './dense-likelihood.js';
import { relativeError } from './reference-cases.js';
import { modelOfShape, simulatedTrial } from './simulated-models.js';

interface Side {
  readonly fixed: readonly DesignColumn[];
  readonly random: readonly { readonly groups: readonly string[]; readonly columns: readonly DesignColumn[] }[];
}

interface Comparison {
  readonly name: string;
  readonly response: readonly number[];
  readonly small: Side;
  readonly large: Side;
  readonly statistic: number;
  readonly degreesOfFreedom: number;
  readonly pValue: number;
  readonly bootstrap?: { readonly pValue: number; readonly replicates: number };
}

interface Reference {
  readonly cases: readonly Comparison[];
  readonly variance: {
    readonly response: readonly number[];
    readonly groups: readonly string[];
    readonly statistic: number;
    readonly pValue: number;
  };
}

const reference: Reference = JSON.parse(
  readFileSync(new URL('../../../reference/mixed/comparisons/comparisons.json', import.meta.url), 'utf8'),
);

function fitOf(response: readonly number[], { fixed, random }: Side) {
  const terms = random.map((term, at) => ({ name: `term ${at + 1}`, ...term }));
  return fitMixedModel({ response, fixed: { columns: fixed }, random: terms, method: 'ml' });
}

function faultOf(run: () => unknown): string {
  try {
    run();
  } catch (error) {
    if (isStatisticsError(error)) return error.fault;
    throw error;
  }
  throw new Error('was not refused');
}

describe('likelihoodRatioTest', () => {
  it.each(reference.cases)('matches anova() of lme4: $name', ({ response, small, large, ...expected }) => {
    const test = likelihoodRatioTest(fitOf(response, small), fitOf(response, large));
    expect(relativeError(test.statistic, expected.statistic)).toBeLessThan(1e-6);
    expect(test.degreesOfFreedom).toBe(expected.degreesOfFreedom);
    expect(relativeError(test.pValue, expected.pValue)).toBeLessThan(1e-5);
  });

  const trial = simulatedTrial(3, 6, 3, 5);
  const large = modelOfShape(trial, 'nested', 'reml');
  const smallOf = (change: Partial<MixedModel>) => fitMixedModel({ ...large, ...change });
  const fixed = { columns: large.fixed.columns.slice(0, 2) };

  it.each([
    ['fits in the wrong order', () => likelihoodRatioTest(fitMixedModel(large), smallOf({ random: [] }))],
    [
      'other fixed columns under restricted likelihood',
      () => likelihoodRatioTest(smallOf({ fixed }), fitMixedModel(large)),
    ],
    ['another method', () => likelihoodRatioTest(smallOf({ fixed, method: 'ml' }), fitMixedModel(large))],
    [
      'another response',
      () =>
        likelihoodRatioTest(
          smallOf({ random: [], response: trial.response.map((value) => 2 * value) }),
          fitMixedModel(large),
        ),
    ],
  ])('refuses %s', (_, run) => {
    expect(faultOf(run)).toBe('out-of-range');
  });
});

describe('parametricBootstrapTest', () => {
  it('agrees with the simulation of pbkrtest on few units, where chi-square is far too small', () => {
    const [beets] = reference.cases;
    const { response, small, large, bootstrap } = beets!;
    const test = parametricBootstrapTest(fitOf(response, small), fitOf(response, large), { seed: 1, replicates: 400 });
    const theirs = Math.sqrt((bootstrap!.pValue * (1 - bootstrap!.pValue)) / bootstrap!.replicates);
    expect(Math.abs(test.pValue - bootstrap!.pValue)).toBeLessThan(4 * Math.hypot(theirs, test.monteCarloError));
    expect(test.pValue).toBeGreaterThan(5 * beets!.pValue);
  });

  it('agrees with the F test for the variance of a balanced one-way layout', () => {
    const { response, groups, pValue } = reference.variance;
    const model: MixedModel = {
      response,
      fixed: { columns: [{ name: 'intercept', values: response.map(() => 1) }] },
      random: [],
      method: 'reml',
    };
    const large = fitMixedModel({ ...model, random: [{ name: 'batch', groups }] });
    const test = parametricBootstrapTest(fitMixedModel(model), large, { seed: 2, replicates: 2000 });
    expect(Math.abs(test.pValue - pValue)).toBeLessThan(4 * Math.sqrt((pValue * (1 - pValue)) / 2000));
  });

  it('counts the simulated statistics that reach the observed one', () => {
    const { response, groups } = reference.variance;
    const one = { name: 'intercept', values: response.map(() => 1) };
    const model: MixedModel = { response, fixed: { columns: [one] }, random: [], method: 'ml' };
    const largeOf = (values: readonly number[]) =>
      fitMixedModel({ ...model, response: values, random: [{ name: 'batch', groups }] });
    // With groups out of step with the data there is no effect, so that about half the statistics count.
    const turned = response.map((_, row) => response[(7 * row) % response.length]!);
    const [small, large] = [fitMixedModel({ ...model, response: turned }), largeOf(turned)];
    const test = parametricBootstrapTest(small, large, { seed: 3, replicates: 60 });
    const stream = randomStream(3);
    let reached = 0;
    for (let replicate = 0; replicate < 60; replicate++) {
      const simulated = simulateResponse(small, stream);
      const gain = largeOf(simulated).logLikelihood - fitMixedModel({ ...model, response: simulated }).logLikelihood;
      if (2 * gain >= test.statistic - 1e-8) reached += 1;
    }
    expect(reached).toBeGreaterThan(3);
    expect(test.pValue).toBe((reached + 1) / 61);
  });

  it('gives the same answer for the same seed, and a p-value above zero', () => {
    const [beets] = reference.cases;
    const fits = [fitOf(beets!.response, beets!.small), fitOf(beets!.response, beets!.large)] as const;
    const once = parametricBootstrapTest(...fits, { seed: 7, replicates: 9 });
    expect(parametricBootstrapTest(...fits, { seed: 7, replicates: 9 })).toEqual(once);
    expect(once.pValue).toBeGreaterThanOrEqual(0.1);
    expect(faultOf(() => parametricBootstrapTest(...fits, { seed: 7, replicates: 0 }))).toBe('out-of-range');
  });
});

describe('simulateResponse', () => {
  it.each(['slopes', 'crossed', 'autoregressive', 'by-group', 'autoregressive-by-group'] as const)(
    'has the covariance of the model: %s',
    (shape) => {
      const whole = modelOfShape(simulatedTrial(11, 4, 2, 4), shape, 'reml');
      // Large variances of other terms would hide what the residuals do.
      const model = shape === 'slopes' || shape === 'crossed' ? whole : { ...whole, random: [] };
      const fit = fitMixedModel(model);
      const { terms, residual } = componentsOf(fit);
      const stream = randomStream(5);
      const draws = Array.from({ length: 4000 }, () => simulateResponse(fit, stream));
      const means = model.fixed.columns[0]!.values.map((_, row) =>
        fit.coefficients.reduce((sum, { estimate }, at) => sum + estimate * model.fixed.columns[at]!.values[row]!, 0),
      );
      const covarianceOf = (row: number, column: number) =>
        model.random.reduce(
          (sum, term, at) => {
            if (term.groups[row] !== term.groups[column]) return sum;
            const weights = term.columns?.map(({ values }) => values) ?? [means.map(() => 1)];
            const part = (i: number, j: number) => weights[i]![row]! * terms[at]![i]![j]! * weights[j]![column]!;
            return sum + weights.reduce((s, _, i) => s + weights.reduce((p, __, j) => p + part(i, j), 0), 0);
          },
          residual(row, column),
        );
      for (let row = 0; row < 8; row++) {
        for (let column = row; column < 8; column++) {
          const found = draws.reduce((s, y) => s + (y[row]! - means[row]!) * (y[column]! - means[column]!), 0) / 4000;
          const expected = covarianceOf(row, column);
          const error = Math.sqrt((covarianceOf(row, row) * covarianceOf(column, column) + expected ** 2) / 4000);
          expect(Math.abs(found - expected)).toBeLessThan(4.5 * error);
        }
      }
    },
  );
});

describe('intraclassCorrelation', () => {
  const trial = simulatedTrial(3, 6, 3, 5);

  it('adds up the variances of the levels that two observations share', () => {
    const fit = fitMixedModel(modelOfShape(trial, 'crossed', 'reml'));
    const [wall, visit, station] = fit.random.map(({ covariance }) => covariance[0]![0]!);
    const total = wall! + visit! + station! + (fit.residual.kind === 'equal' ? fit.residual.standardDeviation ** 2 : 0);
    const expected = [
      { term: 'wall', correlation: wall! / total },
      { term: 'visit', correlation: visit! / total },
      { term: 'station', correlation: (wall! + station!) / total },
    ];
    intraclassCorrelation(fit).forEach(({ term, correlation }, at) => {
      expect(term).toBe(expected[at]!.term);
      expect(relativeError(correlation, expected[at]!.correlation)).toBeLessThan(1e-12);
    });
  });

  it.each(['slopes', 'by-group', 'autoregressive-by-group'] as const)('refuses a model with %s', (shape) => {
    expect(faultOf(() => intraclassCorrelation(fitMixedModel(modelOfShape(trial, shape, 'reml'))))).toBe(
      'out-of-range',
    );
  });
});
