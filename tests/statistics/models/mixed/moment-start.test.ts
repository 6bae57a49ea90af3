import { describe, expect, it } from 'vitest';
import {
  fitMixedModel,
  leastSquares,
  type MixedModel,
  normalDraws,
  randomStream,
} from '../../../../src/statistics/index.js';
import { checkedGroupings } from '../../../../src/statistics/models/mixed/check-mixed-model.js';
import type { DevianceProblem } from '../../../../src/statistics/models/mixed/deviance.js';
import { devianceProblem } from '../../../../src/statistics/models/mixed/deviance-problem.js';
import { momentStart } from '../../../../src/statistics/models/mixed/moment-start.js';

function startOf(model: MixedModel): readonly number[] | undefined {
  const ordinary = leastSquares(model.fixed, model.response);
  const scale = Math.sqrt(ordinary.residualVariance);
  const problem: DevianceProblem = devianceProblem(model, checkedGroupings(model), ordinary, scale);
  return momentStart(problem, problem.residual.components[0] ?? new Float64Array());
}

const ones = (rows: number) => ({ name: 'intercept', values: Array.from({ length: rows }, () => 1) });

/** Three readings at each of two stations on each of four walls, half of them treated. */
const nested: MixedModel = {
  response: [
    ...[5.1, 5.9, 5.4, 6.8, 7.1, 6.4, 9.2, 8.8, 9.9, 8.1, 7.7, 8.4],
    ...[3.9, 4.4, 4.6, 3.1, 2.8, 3.3, 7.5, 7.9, 7.1, 6.6, 6.1, 6.9],
  ],
  fixed: { columns: [ones(24), { name: 'arm', values: Array.from({ length: 24 }, (_, row) => Number(row >= 12)) }] },
  random: [
    { name: 'wall', groups: Array.from({ length: 24 }, (_, row) => `w${Math.floor(row / 6)}`) },
    { name: 'station', groups: Array.from({ length: 24 }, (_, row) => `s${Math.floor(row / 3)}`) },
  ],
  method: 'reml',
};

describe('momentStart', () => {
  it('gives the analysis of variance of balanced nested data, worked out from their means', () => {
    const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
    const parts = (size: number) =>
      Array.from({ length: 24 / size }, (_, at) => mean(nested.response.slice(at * size, (at + 1) * size)));
    const [arms, walls, stations] = [parts(12), parts(6), parts(3)];
    const squares = (fine: readonly number[], coarse: readonly number[], readings: number) =>
      readings *
      fine.reduce(
        (sum, value, at) => sum + (value - (coarse[Math.floor((at * coarse.length) / fine.length)] ?? 0)) ** 2,
        0,
      );
    const residual = squares(nested.response, stations, 1) / 16;
    const ofStations = squares(stations, walls, 3) / 4;
    const ofWalls = squares(walls, arms, 6) / 2;
    const expected = [(ofStations - residual) / 3 / residual, (ofWalls - ofStations) / 6 / residual];
    // The term with most levels comes first.
    const [station = 0, wall = 0] = startOf(nested) ?? [];
    expect(station ** 2).toBeCloseTo(expected[0] ?? 0, 10);
    expect(wall ** 2).toBeCloseTo(expected[1] ?? 0, 10);
  });

  it('is the end of the search in balanced nested data: three trials, two of them for the second derivatives', () => {
    expect(fitMixedModel(nested).optimiser.evaluations).toBe(3);
  });

  it.each([3, 5, 7, 11])(
    'sets sums of squares equal to their expectations by dense matrices: unbalanced, crossed, with a slope, seed %i',
    (seed) => {
      const rows = 90;
      const stream = randomStream(seed);
      const [response, covariate] = [[...normalDraws(stream, rows)], [...normalDraws(stream, rows)]];
      const one = Array.from({ length: rows }, (_, row) => (row * 3 + (row >> 3)) % 5);
      const other = Array.from({ length: rows }, (_, row) => (row * 7) % 4);
      const [intercepts, slopes, others] = [normalDraws(stream, 5), normalDraws(stream, 5), normalDraws(stream, 4)];
      const effect = response.map((value, row) => {
        const [level, beside] = [one[row] ?? 0, other[row] ?? 0];
        const ofOne = 2 * (intercepts[level] ?? 0) + 2 * (slopes[level] ?? 0) * (covariate[row] ?? 0);
        return value + ofOne + 2 * (others[beside] ?? 0);
      });
      const slope = { name: 'slope', values: covariate };
      const model: MixedModel = {
        response: effect,
        fixed: { columns: [ones(rows), slope] },
        random: [
          { name: 'one', groups: one, columns: [ones(rows), slope], covariance: 'diagonal' },
          { name: 'other', groups: other },
        ],
        method: 'reml',
      };
      const mean = Math.sqrt(covariate.reduce((sum, value) => sum + value * value, 0) / rows);
      const scaled = covariate.map((value) => value / mean);
      const byLevel = (groups: readonly number[], values: readonly number[]) =>
        [...new Set(groups)].map((level) => values.map((value, row) => (groups[row] === level ? value : 0)));
      const unit = Array.from({ length: rows }, () => 1);
      const kinds = [byLevel(one, unit), byLevel(one, scaled), byLevel(other, unit)];
      const dot = (a: readonly number[], b: readonly number[]) =>
        a.reduce((sum, value, at) => sum + value * (b[at] ?? 0), 0);
      const residualOf = (values: readonly number[]) => leastSquares(model.fixed, values).residuals;
      const left = kinds.map((vectors) => vectors.map(residualOf));
      const units = unit.map((_, at) => unit.map((__, row) => Number(row === at)));
      const matrices = [...left, units.map(residualOf)];
      const whole = [...kinds, units];
      // E(Σ (v'My)² / v'v) of each kind, for the variance of each kind.
      const expected = whole.map((vectors) =>
        matrices.map((columns) =>
          vectors.reduce(
            (sum, vector) =>
              sum + columns.reduce((part, column) => part + dot(vector, column) ** 2, 0) / dot(vector, vector),
            0,
          ),
        ),
      );
      const residuals = residualOf(effect);
      const observed = whole.map((vectors) =>
        vectors.reduce((sum, vector) => sum + dot(vector, residuals) ** 2 / dot(vector, vector), 0),
      );
      const start = startOf(model) ?? [];
      expect(start.length).toBe(3);
      // The start gives ratios only; the residual variance that goes with them solves the last equation, and then the others hold too.
      const ratios = [...start.map((value) => value ** 2), 1];
      const sums = expected.map((row) => dot(row, ratios));
      const residual = (observed[3] ?? 0) / (sums[3] ?? 1);
      expect(start.every((value) => value > 0.1 && value < 100)).toBe(true);
      for (const at of [0, 1, 2]) expect((sums[at] ?? 0) * residual).toBeCloseTo(observed[at] ?? 0, 8);
    },
  );

  it('starts a little above zero where the estimate is negative', () => {
    // Stations whose means agree exactly, though their readings vary.
    const response = [1, 2, 3, 3, 2, 1, 2, 1, 3, 1, 3, 2];
    const model: MixedModel = {
      response,
      fixed: { columns: [ones(12)] },
      random: [{ name: 'station', groups: response.map((_, row) => Math.floor(row / 3)) }],
      method: 'reml',
    };
    expect(startOf(model)).toEqual([0.1]);
    expect(fitMixedModel(model).boundary).toEqual(['station']);
  });

  it('has no answer where repeats agree, so that the residual is left no variance', () => {
    const response = [1, 1, 1, 4, 4, 4, 2, 2, 2, 7, 7, 7];
    const groups = response.map((_, row) => Math.floor(row / 3));
    const model: MixedModel = {
      response,
      fixed: { columns: [ones(12)] },
      random: [{ name: 'station', groups }],
      method: 'reml',
    };
    const start = startOf(model);
    expect(start === undefined || start[0] === 100).toBe(true);
    expect(() => fitMixedModel(model)).toThrowError(expect.objectContaining({ fault: 'no-variation' }));
  });
});
