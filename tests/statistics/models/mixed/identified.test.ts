import { describe, expect, it } from 'vitest';
import {
  fitMixedModel,
  isStatisticsError,
  type MixedModel,
  normalDraws,
  profileIntervals,
  randomStream,
  satterthwaite,
  uniform,
} from '../../../../src/statistics/index.js';
import { ofSweep } from '../../../helpers/sweep.js';

const column = (name: string, values: readonly number[]) => ({ name, values });
const ones = (rows: number) => column('intercept', Array(rows).fill(1));
const draws = (count: number, stream = 0) => Array.from(normalDraws(randomStream(20240603, stream), count));

function refusal(model: MixedModel): { readonly fault: string; readonly message: string } | undefined {
  try {
    fitMixedModel(model);
    return undefined;
  } catch (error) {
    if (isStatisticsError(error)) return { fault: error.fault, message: error.message };
    throw error;
  }
}

/** One wall in each of two arms, before and after, six stations each: 24 rows. */
function twoWalls(): Omit<MixedModel, 'random' | 'method'> & { readonly wall: string[]; readonly station: string[] } {
  const rows = Array.from({ length: 24 }, (_, row) => ({
    arm: Math.floor(row / 12),
    after: Math.floor(row / 6) % 2,
    station: row % 6,
  }));
  return {
    response: draws(24),
    fixed: {
      columns: [
        ones(24),
        column(
          'arm',
          rows.map(({ arm }) => arm),
        ),
        column(
          'after',
          rows.map(({ after }) => after),
        ),
        column(
          'both',
          rows.map(({ arm, after }) => arm * after),
        ),
      ],
    },
    wall: rows.map(({ arm }) => `wall ${arm}`),
    station: rows.map(({ arm, station }) => `wall ${arm}, station ${station}`),
  };
}

/** Six walls of five readings with so many covariates of the wall. */
function sixWalls(covariates: number): MixedModel {
  const wall = Array.from({ length: 30 }, (_, row) => Math.floor(row / 5));
  const columns = Array.from({ length: covariates }, (_, k) => {
    const values = draws(6, 10 + k);
    return column(
      `covariate ${k}`,
      wall.map((at) => values[at]!),
    );
  });
  return {
    response: draws(30, 1),
    fixed: { columns: [ones(30), ...columns] },
    random: [{ name: 'wall', groups: wall }],
    method: 'reml',
  };
}

describe('fitMixedModel where fixed columns tell the levels of a random term apart', () => {
  const { wall, station, ...trial } = twoWalls();
  const walls = { name: 'wall', groups: wall };
  const stations = { name: 'station', groups: station };

  it('refuses one wall against one wall under restricted likelihood, and says what to do', () => {
    for (const random of [[walls], [walls, stations], [stations, walls]]) {
      const found = refusal({ ...trial, random, method: 'reml' });
      expect(found?.fault).toBe('collinear');
      expect(found?.message).toContain('those of "wall" are distinguished by the fixed columns');
      expect(found?.message).toContain('leave out "wall"');
    }
    expect(refusal({ ...trial, random: [stations], method: 'reml' })).toBeUndefined();
  });

  it('puts the variance of plain likelihood on the boundary, and its profile has limits', () => {
    const fit = fitMixedModel({ ...trial, random: [walls], method: 'ml' });
    expect(fit.boundary).toEqual(['wall']);
    const [first] = profileIntervals(fit);
    expect(first?.interval.lower).toBe(0);
    expect(first?.interval.upper).toBeGreaterThan(0);
  });

  it('refuses a block that is fixed and random, and takes walls at random inside fixed blocks', () => {
    const block = Array.from({ length: 40 }, (_, row) => Math.floor(row / 10));
    const inside = { name: 'wall', groups: block.map((at, row) => `${at} ${Math.floor(row / 5)}`) };
    const columns = [0, 1, 2, 3].map((k) =>
      column(
        `block ${k}`,
        block.map((at) => Number(at === k)),
      ),
    );
    const arm = column(
      'arm',
      block.map((_, row) => Math.floor(row / 5) % 2),
    );
    const model = { response: draws(40, 2), fixed: { columns: [...columns, arm] }, method: 'reml' as const };
    expect(refusal({ ...model, random: [{ name: 'block', groups: block }] })?.message).toContain('"block"');
    expect(refusal({ ...model, random: [inside, { name: 'block', groups: block }] })?.fault).toBe('collinear');
    expect(satterthwaite(fitMixedModel({ ...model, random: [inside] }), { arm: 1 }).degreesOfFreedom).toBeGreaterThan(
      2.9,
    );
  });

  it('takes six walls with five columns of the wall, and refuses a sixth', () => {
    expect(refusal(sixWalls(4))).toBeUndefined();
    expect(refusal(sixWalls(5))?.fault).toBe('collinear');
  });

  it('does so where the columns stand far from zero', () => {
    const wall = Array.from({ length: 40 }, (_, row) => Math.floor(row / 5));
    const own = Array.from({ length: 7 }, (_, k) =>
      column(
        `wall ${k}`,
        wall.map((at) => 1e6 + Number(at === k)),
      ),
    );
    const model = (columns: typeof own): MixedModel => ({
      response: draws(40, 3),
      fixed: { columns: [ones(40), ...columns] },
      random: [{ name: 'wall', groups: wall }],
      method: 'reml',
    });
    expect(refusal(model(own.slice(1)))).toBeUndefined();
    expect(refusal(model(own))?.fault).toBe('collinear');
  });

  it('refuses a variance that only the residual shares, where the one repeated wall has a column of its own', () => {
    const model = (...columns: readonly { name: string; values: readonly number[] }[]): MixedModel => ({
      response: draws(8, 4),
      fixed: { columns: [ones(8), ...columns] },
      random: [{ name: 'wall', groups: [0, 0, 1, 2, 3, 4, 5, 6] }],
      method: 'reml',
    });
    expect(refusal(model())).toBeUndefined();
    const found = refusal(model(column('first', [1, 0, 0, 0, 0, 0, 0, 0])));
    expect(found?.fault).toBe('collinear');
    expect(found?.message).toContain('cannot be distinguished from those of the residual');
  });

  const plain = ofSweep(240, 50);
  it(`decides as dense matrices do for ${plain} random small designs, both ways`, () => {
    let refused = 0;
    for (let trial = 0; trial < plain; trial++) {
      const model = randomDesign(trial);
      const expected = denselyIdentified(model);
      expect(refusal(model)?.fault ?? 'none', `design ${trial}`).toBe(expected ? 'none' : 'collinear');
      if (!expected) refused += 1;
    }
    expect(refused).toBeGreaterThan(plain / 6);
    expect(refused).toBeLessThan((5 * plain) / 6);
  });

  const sloping = ofSweep(160, 30);
  it(`decides as dense matrices do for ${sloping} random small designs with slopes, both ways`, () => {
    let refused = 0;
    for (let trial = 0; trial < sloping; trial++) {
      const model = randomSlopes(trial);
      const expected = denselyIdentified(model);
      expect(refusal(model)?.fault ?? 'none', `design ${trial}`).toBe(expected ? 'none' : 'collinear');
      if (!expected) refused += 1;
    }
    expect(refused).toBeGreaterThan(sloping / 8);
    expect(refused).toBeLessThan((7 * sloping) / 8);
  });
});

/** Three to seven walls of a few readings with a slope, whose covariate may be one of the wall, and perhaps stations. */
function randomSlopes(at: number): MixedModel {
  const random = randomStream(20240605, at);
  const pick = (from: number, to: number) => from + Math.floor(uniform(random) * (to - from + 1));
  const walls = pick(3, 7);
  const wall = Array.from({ length: walls }, (_, name) => Array<number>(pick(3, 5)).fill(name)).flat();
  const ofWall = Array.from({ length: walls }, (_, name) => (name < 2 ? name : pick(0, pick(1, 3))));
  const kind = pick(0, 2);
  const covariate = wall.map((name, row) =>
    kind === 0 ? (ofWall[name] ?? 0) : kind === 1 ? row % 2 : uniform(random),
  );
  const fixed = [wall.map(() => 1)];
  for (const values of [
    covariate,
    ...Array.from({ length: pick(0, walls) }, (_, k) => wall.map((name) => Number(name === k))),
  ])
    if (!spans(fixed, values)) fixed.push(values);
  const columns = [ones(wall.length), column('covariate', covariate)];
  const station = wall.map((name, row) => `${name} ${row % 2}`);
  return {
    response: Array.from(normalDraws(random, wall.length)),
    fixed: { columns: fixed.slice(0, wall.length - 3).map((values, k) => column(`column ${k}`, values)) },
    random: [
      { name: 'wall', groups: wall, columns, covariance: pick(0, 1) === 1 ? 'diagonal' : 'unstructured' },
      ...(pick(0, 1) === 1 ? [{ name: 'station', groups: station }] : []),
    ],
    method: 'reml',
  };
}

/** Up to nine walls of a few readings in blocks, with fixed columns of the wall, the block or the reading. */
function randomDesign(at: number): MixedModel {
  const random = randomStream(20240604, at);
  const pick = (from: number, to: number) => from + Math.floor(uniform(random) * (to - from + 1));
  const walls = pick(3, 9);
  const wall = Array.from({ length: walls }, (_, name) => Array<number>(pick(1, 3)).fill(name)).flat();
  const [first = 0, last = 0] = [0, walls - 1];
  wall.push(first, first, last, last);
  const block = wall.map((name) => Math.floor(name / 2));
  const coded = Array.from({ length: walls }, () => pick(0, 1));
  const kinds = [
    wall.map((name) => coded[name]!),
    ...Array.from({ length: pick(0, walls) }, (_, k) => wall.map((name) => Number(name === k))),
    wall.map(() => uniform(random)),
  ];
  const fixed = [wall.map(() => 1)];
  for (const values of kinds) if (!spans(fixed, values)) fixed.push(values);
  const terms = [
    { name: 'wall', groups: wall },
    ...(walls > 4 && pick(0, 1) === 1 ? [{ name: 'block', groups: block }] : []),
  ];
  return {
    response: Array.from(normalDraws(random, wall.length)),
    fixed: { columns: fixed.slice(0, wall.length - 3).map((values, k) => column(`column ${k}`, values)) },
    random: terms,
    method: 'reml',
  };
}

function spans(columns: readonly (readonly number[])[], values: readonly number[]): boolean {
  const left = outside(columns, values);
  return Math.hypot(...left) <= 1e-9 * Math.hypot(...values);
}

/** What columns leave of values, by Gram–Schmidt. */
function outside(columns: readonly (readonly number[])[], values: readonly number[]): number[] {
  const basis: number[][] = [];
  const reduce = (vector: readonly number[]) => {
    let left = [...vector];
    for (let pass = 0; pass < 2; pass++) {
      for (const one of basis) {
        const share = one.reduce((sum, value, row) => sum + value * left[row]!, 0);
        left = left.map((value, row) => value - share * one[row]!);
      }
    }
    return left;
  };
  for (const one of columns) {
    const left = reduce(one);
    const length = Math.hypot(...left);
    if (length > 1e-9) basis.push(left.map((value) => value / length));
  }
  return reduce(values);
}

/** Whether the matrices of the residual and the terms, with the fixed columns taken out on both sides, are independent. */
function denselyIdentified({ fixed, random, response }: MixedModel): boolean {
  const columns = fixed.columns.map(({ values }) => values);
  const rows = response.map((_, row) => row);
  const whole = [
    rows.map((row) => rows.map((other) => Number(row === other))),
    ...random.flatMap(({ groups, columns: own = [ones(rows.length)], covariance }) =>
      own.flatMap(({ values: one }, first) =>
        own
          .slice(first, covariance === 'diagonal' ? first + 1 : undefined)
          .map(({ values: two }) =>
            rows.map((row) =>
              rows.map(
                (other) => Number(groups[row] === groups[other]) * (one[row]! * two[other]! + two[row]! * one[other]!),
              ),
            ),
          ),
      ),
    ),
  ];
  const transposed = (matrix: readonly (readonly number[])[]) => rows.map((row) => matrix.map((line) => line[row]!));
  const left = whole.map((matrix) => {
    const half = transposed(matrix.map((line) => outside(columns, line)));
    return half.flatMap((line) => outside(columns, line));
  });
  return left.every((matrix, at) => !spans(left.slice(0, at), matrix) && Math.hypot(...matrix) > 1e-9);
}
