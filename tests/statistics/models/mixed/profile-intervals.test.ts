import { describe, expect, it } from 'vitest';
import type { DesignColumn } from '../../../../src/statistics/models/linear/design-matrix.js';
import { fitMixedModel } from '../../../../src/statistics/models/mixed/fit-mixed-model.js';
import { profileIntervals } from '../../../../src/statistics/models/mixed/profile-intervals.js';
import { isStatisticsError } from '../../../../src/statistics/statistics-error.js';
import { componentsOf, denseLikelihood } from './dense-likelihood.js';
import { readReference } from './reference-cases.js';
import { modelOfShape, simulatedTrial } from './simulated-models.js';

interface ProfileCase {
  readonly name: string;
  readonly response: readonly number[];
  readonly fixed: readonly DesignColumn[];
  readonly random: readonly { readonly groups: readonly string[]; readonly columns: readonly DesignColumn[] }[];
  readonly limits: readonly {
    readonly kind: string;
    readonly term: number;
    readonly columns: readonly number[];
    readonly lower: number;
    readonly upper: number;
  }[];
}

describe('profileIntervals', () => {
  it.each(readReference<ProfileCase>('mixed/profiles', 'profiles'))('matches the profile of lme4: $name', (example) => {
    const random = example.random.map((term, at) => ({ name: `term ${at}`, ...term }));
    const fit = fitMixedModel({ response: example.response, fixed: { columns: example.fixed }, random, method: 'ml' });
    const intervals = profileIntervals(fit);
    expect(intervals).toHaveLength(example.limits.length);
    for (const { kind, term, columns, lower, upper } of example.limits) {
      const name = term < 0 ? 'residual' : `term ${term}`;
      const of = columns.map((column) => random[term]!.columns[column]!.name);
      const found = intervals.find((one) => one.kind === kind && one.term === name && one.of.join() === of.join());
      expect(Math.abs(found!.interval.lower - lower)).toBeLessThanOrEqual(1e-5 * Math.abs(lower));
      expect(Math.abs(found!.interval.upper - upper)).toBeLessThanOrEqual(1e-5 * Math.abs(upper));
    }
  });

  it('ends where the restricted likelihood, maximised over all else, has fallen enough: residual variances by group', () => {
    const model = { ...modelOfShape(simulatedTrial(11, 6, 3, 5), 'by-group', 'reml'), random: [] };
    const fit = fitMixedModel(model);
    const { residual } = componentsOf(fit);
    const groups = model.residual?.kind === 'by-group' ? model.residual.groups : [];
    const intervals = profileIntervals(fit);
    expect(intervals.map(({ of }) => of)).toEqual(
      fit.residual.kind === 'by-group' ? fit.residual.groups.map(({ group }) => [group]) : [],
    );
    for (const { of, estimate, interval } of intervals) {
      for (const limit of [interval.lower, interval.upper]) {
        const highest = maximum((other) => {
          const ratio = (row: number) => (groups[row] === of[0] ? limit / estimate : Math.exp(other));
          const changed = (row: number, column: number) => (row === column ? residual(row, row) * ratio(row) ** 2 : 0);
          return denseLikelihood(model, { terms: [], residual: changed }).logLikelihood;
        });
        expect(Math.abs(fit.logLikelihood - highest - halfOfQuantile)).toBeLessThan(1e-6);
      }
    }
  });

  it('ends where the restricted likelihood, maximised over all else, has fallen enough: autoregression', () => {
    const model = { ...modelOfShape(simulatedTrial(11, 6, 3, 5), 'autoregressive', 'reml'), random: [] };
    const fit = fitMixedModel(model);
    const structure = model.residual;
    const correlation = profileIntervals(fit).find(({ kind }) => kind === 'correlation');
    const deviation = fit.residual.kind === 'autoregressive' ? fit.residual.standardDeviation : Number.NaN;
    for (const limit of [correlation!.interval.lower, correlation!.interval.upper]) {
      const highest = maximum((other) => {
        const changed = (row: number, column: number) =>
          structure?.kind === 'autoregressive' && structure.series[row] === structure.series[column]
            ? (deviation * Math.exp(other)) ** 2 * limit ** Math.abs(structure.steps[row]! - structure.steps[column]!)
            : 0;
        return denseLikelihood(model, { terms: [], residual: changed }).logLikelihood;
      });
      expect(Math.abs(fit.logLikelihood - highest - halfOfQuantile)).toBeLessThan(1e-6);
    }
  });

  it('refuses a level outside 0 to 1', () => {
    const fit = fitMixedModel(modelOfShape(simulatedTrial(3, 6, 3, 5), 'nested', 'reml'));
    let fault = '';
    try {
      profileIntervals(fit, { level: 95 });
    } catch (error) {
      if (isStatisticsError(error)) fault = error.fault;
    }
    expect(fault).toBe('out-of-range');
  });
});

/** Half the 95 % quantile of chi-square with one degree of freedom (R 4.2.2, qchisq). */
const halfOfQuantile = 3.841458820694124 / 2;

/** Highest value of a function with one hump between -1 and 1, by golden sections. */
function maximum(evaluate: (at: number) => number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [-1, 1];
  while (high - low > 1e-5) {
    const [left, right] = [high - golden * (high - low), low + golden * (high - low)];
    if (evaluate(left) < evaluate(right)) low = left;
    else high = right;
  }
  return evaluate((low + high) / 2);
}
