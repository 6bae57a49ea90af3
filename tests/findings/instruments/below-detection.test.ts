import { describe, expect, it } from 'vitest';
import type { AnswerResult, BelowDetection } from '../../../src/findings/instruments/instrument-facts.js';
import { formOpinion, type Opinion, type Trial } from '../../../src/index.js';
import { instrumentsSection } from '../../../src/report/sections/instruments-section.js';
import { opinionJson } from '../../../src/report/writers/opinion-json.js';
import { censoredGroupMeans, type LeftCensored, mean } from '../../../src/statistics/index.js';
import { madeTrial, wallsWithChanges } from '../../helpers/made-trial.js';

type Values = readonly (number | `<${number}`)[];

/** Values of every wall before and after, read at one place on as many days. */
const table: Readonly<Record<string, { readonly before: Values; readonly after: Values }>> = {
  T1: { before: [6, 7, 8], after: [3, 4, '<2'] },
  T2: { before: [7, 8, 9], after: [4, 5, 6] },
  U1: { before: [6, 7, 5], after: [6, 5.5, 5] },
  U2: { before: [3, '<2', 4], after: [4, 5, 3] },
};

function trialOf(values: typeof table): Trial {
  const walls = wallsWithChanges([0, 0], [0, 0]);
  const readings = Object.entries(values).flatMap(([wall, { before, after }]) =>
    [
      ...before.map((value, day) => ({ value, date: `2024-04-1${day}` })),
      ...after.map((value, day) => ({ value, date: `2025-04-1${day}` })),
    ].map(({ value, date }, index) => ({
      date,
      wall,
      station: 'low',
      instrument: 'core',
      value:
        typeof value === 'number'
          ? ({ kind: 'measured', value } as const)
          : ({ kind: 'below-detection', limit: Number(value.slice(1)) } as const),
      origin: { file: 'readings.csv', row: index + 2 },
    })),
  );
  return madeTrial(walls, { readings });
}

function belowOf(opinion: Opinion, instrument = 'core'): BelowDetection {
  const below = opinion.instruments.find((facts) => facts.instrument === instrument)?.belowDetection;
  if (below === undefined) throw new Error('nothing below detection');
  return below;
}

function estimateOf(result: AnswerResult): number {
  if (result.kind === 'not-computed') throw new Error(result.reason.code);
  return result.value.estimate;
}

const textOf = (opinion: Opinion) => JSON.stringify(instrumentsSection(opinion)?.blocks);

describe('readings below the detection limit, counted wall by wall', () => {
  const opinion = formOpinion(trialOf(table));
  const below = belowOf(opinion);

  it('counts them by side and window', () => {
    expect(below).toMatchObject({ below: 2, readings: 24, walls: 2 });
    expect(below.where).toEqual({ treated: { before: 0, after: 1 }, untreated: { before: 1, after: 0 } });
  });

  it('leaves them out as the opinion does', () => {
    if (opinion.primary.kind !== 'estimated') throw new Error(opinion.primary.reason.code);
    expect(below.leftOut).toMatchObject({ value: { estimate: opinion.primary.estimate.estimate } });
    expect(below.leftOut).toMatchObject({ value: { code: opinion.verdict.code } });
  });

  it('counts them by Kaplan–Meier and between bounds, worked by hand', () => {
    // The lowest of a wall is a limit, so Kaplan–Meier counts it there: T1 after (3 + 4 + 2)/3 = 3, U2 before the same 3.
    // T1 −4, T2 −3; U1 −0.5, U2 +1.
    expect(estimateOf(below.productLimit)).toBeCloseTo(-3.5 - 0.25, 12);
    // Lower: T1 after with 0 is 7/3, U2 before with 0 is 7/3; upper: both 3, with 2.
    const lower = (7 / 3 - 7 - 3) / 2 - (-0.5 + 4 - 7 / 3) / 2;
    const upper = (3 - 7 - 3) / 2 - (-0.5 + 4 - 3) / 2;
    expect(below.bounds).toEqual({
      kind: 'computed',
      value: { lower: expect.closeTo(lower, 12), upper: expect.closeTo(upper, 12) },
    });
  });

  it('counts them by the likelihood of walls and windows with one spread', () => {
    const cells = Object.values(table).flatMap(({ before, after }) => [before, after]);
    const { groups } = censoredGroupMeans(
      cells.map((values) =>
        values.map(
          (value): LeftCensored =>
            typeof value === 'number' ? { kind: 'measured', value } : { kind: 'below', limit: Number(value.slice(1)) },
        ),
      ),
    );
    const changes = [0, 2, 4, 6].map((at) => (groups[at + 1]?.mean ?? 0) - (groups[at]?.mean ?? 0));
    const expected = mean(changes.slice(0, 2)) - mean(changes.slice(2));
    expect(estimateOf(below.likelihood)).toBeCloseTo(expected, 9);
  });

  it('refuses a wall with too few measured readings by name, and keeps the bounds', () => {
    const few = belowOf(formOpinion(trialOf({ ...table, T1: { before: [6, 7, 8], after: ['<2', '<2', 3] } })));
    expect(few.productLimit).toEqual({
      kind: 'not-computed',
      reason: { code: 'too-few-measured', needed: 2, walls: ['T1'] },
    });
    expect(few.likelihood.kind).toBe('computed');
    const none = formOpinion(trialOf({ ...table, T1: { before: [6, 7, 8], after: ['<2', '<2', '<2'] } }));
    expect(belowOf(none).likelihood).toMatchObject({ reason: { code: 'too-few-measured', needed: 1, walls: ['T1'] } });
    expect(belowOf(none).bounds.kind).toBe('computed');
    expect(textOf(none)).toContain('No answer by Kaplan–Meier');
    expect(textOf(none)).not.toMatch(/NaN|undefined/);
  });

  it('stands on the page and in opinion.json', () => {
    expect(textOf(opinion)).toContain('2 of 24 readings');
    expect(textOf(opinion)).toContain('on treated walls 0 before and 1 after, on untreated walls 1 and 0');
    const json = JSON.parse(opinionJson(opinion)).instruments[0];
    expect(json.belowLimit).toMatchObject({ below: 2, readings: 24, walls: 2, treated: { before: 0, after: 1 } });
    expect(json.belowLimit.productLimit.estimate).toBeCloseTo(-3.75, 12);
  });
});
