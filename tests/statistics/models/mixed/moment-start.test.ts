import { describe, expect, it } from 'vitest';
import {
  fitMixedModel,
  leastSquares,
  type MixedModel,
  normalDraws,
  randomStream,
} from '../../../../src/statistics/index.js';
import { checkedGroupings } from '../../../../src/statistics/models/mixed/check-mixed-model.js';
import { devianceProblem } from '../../../../src/statistics/models/mixed/deviance-problem.js';
import { momentEquations } from '../../../../src/statistics/models/mixed/moment-equations.js';
import { momentStart } from '../../../../src/statistics/models/mixed/moment-start.js';

function problemOf(model: MixedModel) {
  const ordinary = leastSquares(model.fixed, model.response);
  return devianceProblem(model, checkedGroupings(model), ordinary, Math.sqrt(ordinary.residualVariance));
}

function startOf(model: MixedModel): readonly number[] | undefined {
  const problem = problemOf(model);
  return momentStart(problem.terms, momentEquations(problem, problem.residual.components[0] ?? new Float64Array()));
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

const dot = (a: readonly number[], b: readonly number[]) => a.reduce((sum, value, at) => sum + value * (b[at] ?? 0), 0);

interface Columns {
  readonly one: readonly (readonly number[])[];
  readonly other: readonly (readonly number[])[] | undefined;
}

function sumOver({ one, other }: Columns, product: (v: readonly number[], w: readonly number[]) => number): number {
  return one.reduce((sum, v, level) => {
    const w = other?.[level] ?? v;
    return sum + product(v, w) / Math.sqrt(dot(v, v) * dot(w, w));
  }, 0);
}

/** A term of five levels with a slope crossed with one of four, unbalanced. */
function crossedModel(seed: number, covariance: 'diagonal' | 'unstructured'): MixedModel {
  const rows = 90;
  const stream = randomStream(seed);
  const [noise, covariate] = [[...normalDraws(stream, rows)], [...normalDraws(stream, rows)]];
  const one = Array.from({ length: rows }, (_, row) => (row * 3 + (row >> 3)) % 5);
  const other = Array.from({ length: rows }, (_, row) => (row * 7) % 4);
  const [intercepts, slopes, others] = [normalDraws(stream, 5), normalDraws(stream, 5), normalDraws(stream, 4)];
  const response = noise.map((value, row) => {
    const [level, beside] = [one[row] ?? 0, other[row] ?? 0];
    const ofOne = 2 * (intercepts[level] ?? 0) + 2 * (slopes[level] ?? 0) * (covariate[row] ?? 0);
    return value + ofOne + 2 * (others[beside] ?? 0);
  });
  const slope = { name: 'slope', values: covariate };
  return {
    response,
    fixed: { columns: [ones(rows), slope] },
    random: [
      { name: 'one', groups: one, columns: [ones(rows), slope], covariance },
      { name: 'other', groups: other },
    ],
    method: 'reml',
  };
}

/** From the entries of the factors of both terms. */
function covariancesOf(start: readonly number[], covariance: 'diagonal' | 'unstructured'): number[] {
  if (covariance === 'diagonal') return start.map((value) => value ** 2);
  const [first = 0, below = 0, second = 0, other = 0] = start;
  return [first ** 2, first * below, below ** 2 + second ** 2, other ** 2];
}

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

  it.each(
    // Seeds whose solutions lie inside what a start may be.
    Object.entries({ diagonal: [3, 5, 7, 11], unstructured: [5, 7, 11] } as const).flatMap(([covariance, seeds]) =>
      seeds.map((seed) => ({ seed, covariance: covariance as 'diagonal' | 'unstructured' })),
    ),
  )(
    'sets sums of products equal to their expectations by dense matrices: unbalanced, crossed, with a slope, $covariance, seed $seed',
    ({ seed, covariance }) => {
      const model = crossedModel(seed, covariance);
      const residualOf = (values: readonly number[]) => leastSquares(model.fixed, values).residuals;
      // Of each variance or covariance the columns of its levels, two and two.
      const kinds = problemOf(model).terms.flatMap(({ grouping: { levels, codes }, size, values, diagonal }) => {
        const byLevel = (column: number) =>
          levels.map((_, level) =>
            Array.from(codes, (code, row) => (code === level ? (values[row * size + column] ?? 0) : 0)),
          );
        const columns = Array.from({ length: size }, (_, column) => byLevel(column));
        return columns.flatMap((one, row) =>
          columns
            .slice(diagonal ? row : 0, row + 1)
            .map((other) => ({ one, other: one === other ? undefined : other })),
        );
      });
      const units = model.response.map((_, at) => model.response.map((__, row) => Number(row === at)));
      const whole = [...kinds, { one: units, other: undefined }];
      const left = whole.map(({ one, other }) => ({ one: one.map(residualOf), other: other?.map(residualOf) }));
      // E(Σ v'My w'My / |v||w|) of each kind, for the variance or covariance of each kind.
      const expected = whole.map((own) =>
        left.map(({ one, other }) =>
          sumOver(own, (v, w) =>
            one.reduce((sum, first, level) => {
              const second = other?.[level];
              if (second === undefined) return sum + dot(v, first) * dot(w, first);
              return sum + dot(v, first) * dot(w, second) + dot(v, second) * dot(w, first);
            }, 0),
          ),
        ),
      );
      const residuals = residualOf(model.response);
      const observed = whole.map((own) => sumOver(own, (v, w) => dot(v, residuals) * dot(w, residuals)));
      const ratios = [...covariancesOf(startOf(model) ?? [], covariance), 1];
      expect(ratios.length).toBe(whole.length);
      // The start gives ratios only; the residual variance that goes with them solves the last equation, and then the others hold too.
      const sums = expected.map((row) => dot(row, ratios));
      const residual = (observed.at(-1) ?? 0) / (sums.at(-1) ?? 1);
      for (const at of kinds.keys()) expect((sums[at] ?? 0) * residual).toBeCloseTo(observed[at] ?? 0, 8);
    },
  );

  it('starts at a correlation of 0.9 where the solution is nearer to 1', () => {
    const [, below = 0, second = 0] = startOf(crossedModel(3, 'unstructured')) ?? [];
    expect(Math.abs(below) / Math.hypot(below, second)).toBeCloseTo(0.9, 12);
  });

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
