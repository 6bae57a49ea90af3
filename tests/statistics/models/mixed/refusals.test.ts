import { describe, expect, it } from 'vitest';
import { fitMixedModel } from '../../../../src/statistics/models/mixed/fit-mixed-model.js';
import { kenwardRoger, kenwardRogerJoint } from '../../../../src/statistics/models/mixed/kenward-roger.js';
import type { MixedModel } from '../../../../src/statistics/models/mixed/mixed-model.js';
import { satterthwaite, satterthwaiteJoint } from '../../../../src/statistics/models/mixed/satterthwaite.js';
import { isStatisticsError } from '../../../../src/statistics/statistics-error.js';
import { modelOfShape, simulatedTrial } from './simulated-models.js';

const trial = simulatedTrial(3, 6, 3, 5);
const sound = modelOfShape(trial, 'nested', 'reml');
const rows = sound.response.length;
const column = (name: string, values: readonly number[]) => ({ name, values });
const wall = { name: 'wall', groups: trial.wall };

function refusal(run: () => unknown): { readonly where: string; readonly fault: string; readonly message: string } {
  try {
    run();
  } catch (error) {
    if (isStatisticsError(error)) return { where: error.where, fault: error.fault, message: error.message };
    throw error;
  }
  throw new Error('was not refused');
}

const withFixed = (...columns: readonly { name: string; values: readonly number[] }[]): MixedModel => ({
  ...sound,
  fixed: { columns: [...sound.fixed.columns, ...columns] },
});
const withRandom = (...random: MixedModel['random']): MixedModel => ({ ...sound, random });
const changed = <T>(values: readonly T[], at: number, value: T): T[] =>
  values.map((old, row) => (row === at ? value : old));

const badModels: readonly (readonly [string, MixedModel, string, string])[] = [
  ['one wall only', withRandom({ name: 'wall', groups: trial.wall.map(() => 'a') }), 'too-few', '"wall", got 1'],
  [
    'a level for every observation',
    withRandom({ name: 'reading', groups: trial.wall.map((_, row) => row) }),
    'too-many-parameters',
    '"reading"',
  ],
  [
    'as many columns as observations',
    {
      ...sound,
      response: [1, 2, 4],
      fixed: { columns: [1, 2, 3].map((k) => column(`c${k}`, [k, k * k, k ** 3])) },
      random: [],
    },
    'too-many-parameters',
    '3 coefficients',
  ],
  ['a constant response', { ...sound, response: trial.one.map(() => 0.1) }, 'no-variation', 'fit every observation'],
  [
    'columns that repeat one another',
    withFixed(
      column(
        'arm again',
        trial.arm.map((arm) => 2 * arm + 1),
      ),
    ),
    'collinear',
    '"arm again"',
  ],
  [
    'a column of zeros',
    withFixed(
      column(
        'arm: sham',
        trial.arm.map(() => 0),
      ),
    ),
    'empty-level',
    '"arm: sham"',
  ],
  ['a fixed column of another length', withFixed(column('short', [1, 2])), 'lengths-differ', '"short" has 2'],
  ['groups of another length', withRandom({ name: 'wall', groups: ['a', 'b'] }), 'lengths-differ', '"wall" has 2'],
  [
    'a slope column of another length',
    withRandom({ ...wall, columns: [column('time', [1])] }),
    'lengths-differ',
    '"time"',
  ],
  [
    'NaN in the response',
    { ...sound, response: changed(sound.response, 4, Number.NaN) },
    'not-finite',
    'observation 5',
  ],
  [
    'infinity in a fixed column',
    withFixed(column('x', changed(trial.time, 2, Number.POSITIVE_INFINITY))),
    'not-finite',
    'Infinity at observation 3',
  ],
  [
    'NaN in a slope column',
    withRandom({ ...wall, columns: [column('time', changed(trial.time, 1, Number.NaN))] }),
    'not-finite',
    '"time"',
  ],
  [
    'an observation without a group',
    withRandom({ name: 'wall', groups: changed(trial.wall, 6, '') }),
    'not-finite',
    'observation 7',
  ],
  [
    'a declared level without data',
    withRandom({ ...wall, levels: [...new Set(trial.wall), 'wall 99'] }),
    'empty-level',
    '"wall 99"',
  ],
  [
    'an undeclared level',
    withRandom({ ...wall, levels: [...new Set(trial.wall)].slice(1) }),
    'out-of-range',
    '"wall 0"',
  ],
  ['two terms of one name', withRandom(wall, { name: 'wall', groups: trial.station }), 'out-of-range', '"wall" twice'],
  [
    'two terms that are the same',
    withRandom(wall, { name: 'house', groups: trial.wall.map((w) => `house of ${w}`) }),
    'collinear',
    '"wall" and "house"',
  ],
  [
    'slope columns that repeat one another',
    withRandom({
      ...wall,
      columns: [
        column('intercept', trial.one),
        column(
          'two',
          trial.one.map(() => 2),
        ),
      ],
    }),
    'collinear',
    '"wall"',
  ],
  [
    'a slope column of zeros',
    withRandom({
      ...wall,
      covariance: 'diagonal',
      columns: [
        column(
          'none',
          trial.one.map(() => 0),
        ),
      ],
    }),
    'collinear',
    '"wall"',
  ],
  ['one residual group', { ...sound, residual: { kind: 'by-group', groups: trial.one } }, 'too-few', 'residual groups'],
  [
    'a residual group of one',
    { ...sound, residual: { kind: 'by-group', groups: trial.one.map((_, row) => Math.min(row, 1)) } },
    'too-few',
    '"0" has 1',
  ],
  [
    'one residual group beside series',
    {
      ...sound,
      residual: { kind: 'autoregressive-by-group', series: trial.station, steps: trial.visit, groups: trial.one },
    },
    'too-few',
    'residual groups',
  ],
  [
    'two observations at one step beside groups',
    {
      ...sound,
      residual: { kind: 'autoregressive-by-group', series: trial.wall, steps: trial.visit, groups: trial.instrument },
    },
    'out-of-range',
    'one observation per series',
  ],
  [
    'steps that are not whole',
    { ...sound, residual: { kind: 'autoregressive', series: trial.station, steps: trial.time.map((t) => t / 2) } },
    'out-of-range',
    'whole numbers',
  ],
  [
    'two observations at one step',
    { ...sound, residual: { kind: 'autoregressive', series: trial.wall, steps: trial.visit } },
    'out-of-range',
    'one observation per series',
  ],
  [
    'series of one observation each',
    { ...sound, residual: { kind: 'autoregressive', series: trial.one.map((_, row) => row), steps: trial.visit } },
    'too-few',
    'at least two',
  ],
  [
    'steps of another length',
    { ...sound, residual: { kind: 'autoregressive', series: trial.station, steps: [1] } },
    'lengths-differ',
    `1 for ${rows}`,
  ],
];

describe('fitMixedModel refuses', () => {
  it.each(badModels)('%s', (_, model, fault, words) => {
    const error = refusal(() => fitMixedModel(model));
    expect(error.fault).toBe(fault);
    expect(error.message).toContain(words);
  });
});

describe('contrasts refuse', () => {
  const fit = fitMixedModel(sound);

  it.each([
    ['satterthwaite', () => satterthwaite(fit, { arms: 1 })],
    ['kenwardRoger', () => kenwardRoger(fit, { arms: 1 })],
  ])('%s with a name that is no column', (where, run) => {
    expect(refusal(run)).toMatchObject({ where, fault: 'out-of-range' });
  });

  it.each([
    ['satterthwaiteJoint', () => satterthwaiteJoint(fit, [{ arm: 1 }, { arm: 2 }])],
    [
      'kenwardRogerJoint',
      () =>
        kenwardRogerJoint(fit, [
          { arm: 1, time: 1 },
          { arm: 2, time: 2 },
        ]),
    ],
  ])('%s with contrasts that repeat one another', (where, run) => {
    expect(refusal(run)).toMatchObject({ where, fault: 'collinear' });
  });

  it('kenwardRoger with a fit by plain maximum likelihood', () => {
    const plain = fitMixedModel({ ...sound, method: 'ml' });
    expect(refusal(() => kenwardRoger(plain, { arm: 1 }))).toMatchObject({ fault: 'out-of-range' });
  });

  it.each(['by-group', 'autoregressive-by-group'] as const)('kenwardRoger with residuals that are %s', (shape) => {
    const other = fitMixedModel(modelOfShape(trial, shape, 'reml'));
    const { message } = refusal(() => kenwardRoger(other, { arm: 1 }));
    expect(message).toContain(`"${shape}"; use satterthwaite`);
  });
});
