import { describe, expect, it } from 'vitest';
import type { DesignColumn } from '../../../../src/statistics/models/linear/design-matrix.js';
import { fitMixedModel } from '../../../../src/statistics/models/mixed/fit-mixed-model.js';
import type { MixedModel, ResidualStructure } from '../../../../src/statistics/models/mixed/mixed-model.js';
import { satterthwaite } from '../../../../src/statistics/models/mixed/satterthwaite.js';
import { readReference, relativeError } from './reference-cases.js';

interface Estimates {
  readonly coefficients: readonly number[];
  readonly standardErrors: readonly number[];
  readonly logLikelihood: number;
  /** Satterthwaite's, by coefficient; of the restricted fit only. */
  readonly degreesOfFreedom: readonly number[];
  readonly terms: readonly number[];
  readonly residual: number;
  readonly ratios: readonly number[];
  readonly correlation: readonly number[];
}

interface ResidualCase {
  readonly name: string;
  readonly kind: 'by-group' | 'autoregressive' | 'autoregressive-by-group';
  readonly response: readonly number[];
  readonly fixed: readonly DesignColumn[];
  readonly units: readonly string[];
  readonly groups: readonly string[];
  readonly series: readonly string[];
  readonly steps: readonly number[];
  readonly reml: Estimates;
  readonly ml: Estimates;
}

function modelOf(example: ResidualCase, method: 'reml' | 'ml'): MixedModel {
  return {
    response: example.response,
    fixed: { columns: example.fixed },
    random: example.units.length > 0 ? [{ name: 'unit', groups: example.units }] : [],
    residual: structureOf(example),
    method,
  };
}

function structureOf({ kind, groups, series, steps }: ResidualCase): ResidualStructure {
  if (kind === 'by-group') return { kind, groups };
  return kind === 'autoregressive' ? { kind, series, steps } : { kind, series, steps, groups };
}

describe.each(readReference<ResidualCase>('mixed/residuals', 'residuals'))(
  'fitMixedModel matches nlme: $name',
  (example) => {
    it.each(['reml', 'ml'] as const)('by %s', (method) => {
      const expected = example[method];
      const fit = fitMixedModel(modelOf(example, method));
      expect(relativeError(fit.logLikelihood, expected.logLikelihood)).toBeLessThan(1e-9);
      fit.coefficients.forEach(({ estimate, standardError }, at) => {
        expect(Math.abs(estimate - expected.coefficients[at]!)).toBeLessThan(1e-6 * expected.standardErrors[at]!);
        expect(relativeError(standardError, expected.standardErrors[at]!)).toBeLessThan(1e-6);
      });
      expected.terms.forEach((sd, at) => {
        expect(relativeError(fit.random[at]!.standardDeviations[0]!, sd)).toBeLessThan(1e-6);
      });
      const { residual } = fit;
      expect(residual.kind).toBe(example.kind);
      if ('groups' in residual) {
        const deviations = residual.groups.map(({ standardDeviation }) => standardDeviation);
        expect(deviations).toHaveLength(expected.ratios.length);
        deviations.forEach((sd, at) => {
          expect(relativeError(sd, expected.residual * expected.ratios[at]!)).toBeLessThan(1e-6);
        });
      } else {
        expect(relativeError(residual.standardDeviation, expected.residual)).toBeLessThan(1e-6);
      }
      if ('correlation' in residual) {
        expect(relativeError(residual.correlation, expected.correlation[0]!)).toBeLessThan(1e-6);
      }
      expect(expected.degreesOfFreedom).toHaveLength(method === 'reml' ? example.fixed.length : 0);
      expected.degreesOfFreedom.forEach((freedom, at) => {
        const found = satterthwaite(fit, { [example.fixed[at]!.name]: 1 }).degreesOfFreedom;
        expect(relativeError(found, freedom)).toBeLessThan(1e-4);
      });
    });
  },
);
