import { describe, expect, it } from 'vitest';
import { type Estimate, fewestSeriesVisits, mostDaysApart } from '../../src/analysis/index.js';
import { estimateInWords } from '../../src/labels/index.js';
import { formOpinion, type Opinion } from '../../src/opinion/index.js';
import { addDays } from '../../src/plain/days.js';
import { opinionJson } from '../../src/report/writers/opinion-json.js';
import { averagedContrast, mean, normalDraws, randomStream, stepDesign } from '../../src/statistics/index.js';
import type { Reading, Trial, Wall } from '../../src/trial/index.js';
import { madeTrial, soundProtocol } from '../helpers/made-trial.js';

const windows = { before: { from: '2023-01-01', to: '2023-12-31' }, after: { from: '2024-06-01', to: '2025-05-31' } };
const origin = { file: 'readings.csv', row: 2 };
const noise = normalDraws(randomStream(77), 200);
const visits = 14;

const days = [windows.before.from, windows.after.from].flatMap((first) =>
  Array.from({ length: visits }, (_, at) => addDays(first, 5 + 21 * at)),
);

/** What a wall read at a visit: the season alike for all, noise of its own, and a fall of 4 where it is treated. */
function readOf(wall: string, at: number): number {
  const own = 0.2 * noise[(at * 3 + wall.charCodeAt(0) * 5 + wall.length) % 200]!;
  return 8 + Math.sin(at) + own - (wall.startsWith('T') && at >= visits ? 4 : 0);
}

interface Made {
  /** Days by which a wall is read later than the others. */
  readonly late?: Readonly<Record<string, number>>;
  readonly isLost?: (wall: string, at: number) => boolean;
  readonly walls?: Partial<Wall>;
}

function trialOf(walls: readonly string[], { late = {}, isLost = () => false, walls: more = {} }: Made = {}): Trial {
  const readings = walls.flatMap((wall) =>
    days.flatMap((day, at): Reading[] => {
      if (isLost(wall, at)) return [];
      const value = { kind: 'measured' as const, value: readOf(wall, at) };
      const date = addDays(day, late[wall] ?? 0);
      return [{ date, wall, station: '', instrument: 'core', value, reader: 'R1', knewArm: 'no', origin }];
    }),
  );
  return madeTrial(
    walls.map((wall) => ({ wall, arm: wall.startsWith('T') ? 'treated' : 'sham' })),
    {
      protocol: { ...soundProtocol, windows, plannedOn: '2022-12-01' },
      readings,
      walls: walls.map((wall) => ({ wall, arm: wall.startsWith('T') ? 'treated' : 'sham', ...more, origin })),
    },
  );
}

function primaryOf({ primary }: Opinion): Estimate {
  if (primary.kind !== 'estimated') throw new Error(primary.reason.code);
  expect(primary.method).toBe('paired-series');
  return primary.estimate;
}

/** The contrast of differences worked out here from the values. */
function expectedOf(difference: (at: number) => number, kept = days.map((_, at) => at)) {
  return averagedContrast(
    {
      design: stepDesign(kept.map((at) => (at >= visits ? 1 : 0))),
      response: kept.map(difference),
      times: kept.map((at) => Date.parse(days[at]!) / 86_400_000),
    },
    { step: 1 },
  );
}

describe('one treated wall and several untreated ones', () => {
  const opinion = formOpinion(trialOf(['T', 'U', 'U2']));

  it('are judged by the series of the one less the mean of the others', () => {
    const found = primaryOf(opinion);
    const expected = expectedOf((at) => readOf('T', at) - mean([readOf('U', at), readOf('U2', at)]));
    expect(found.estimate).toBeCloseTo(expected.estimate, 8);
    expect(found.interval?.lower).toBeCloseTo(expected.interval.lower, 8);
    expect(found.walls).toEqual({ treated: 1, untreated: 2 });
    expect(estimateInWords(found).quantity).toBe(
      'treated wall’s change less mean change of the 2 untreated walls, of these walls only',
    );
    expect(opinion.verdict.code).toBe('worthwhile');
  });

  it('have each untreated wall in turn among the analyses, as the trial of these two would answer', () => {
    const alone = primaryOf(formOpinion(trialOf(['T', 'U2'])));
    const against = opinion.analyses.flatMap((one) => (one.kind === 'estimated' ? [one.estimate] : []));
    expect(against.filter(({ id }) => id.startsWith('paired-series-against-')).map(({ id }) => id)).toEqual([
      'paired-series-against-U',
      'paired-series-against-U2',
    ]);
    expect(against.find(({ id }) => id === 'paired-series-against-U2')?.estimate).toBeCloseTo(alone.estimate, 10);
    expect(
      formOpinion(trialOf(['T', 'U']))
        .analyses.map((one) => JSON.stringify(one))
        .join(),
    ).not.toMatch(/against-U/);
  });

  it('are compared only at visits at which all were read', () => {
    const lossy = formOpinion(trialOf(['T', 'U', 'U2'], { isLost: (wall, at) => wall === 'U2' && at === 3 }));
    expect(lossy.series?.series.visits).toHaveLength(2 * visits - 1);
    expect(lossy.series?.series.visits.map(({ day }) => day)).not.toContain(days[3]);
  });

  it('are no series where one of them was lost, as two walls left of more are none', () => {
    const lost = formOpinion(trialOf(['T', 'U', 'U2'], { isLost: (wall, at) => wall === 'U2' && at >= visits }));
    expect(lost.series).toBeUndefined();
  });

  it('answer the other way round too: several treated walls and one untreated', () => {
    const found = formOpinion(trialOf(['T', 'T2', 'U']));
    const expected = expectedOf((at) => mean([readOf('T', at), readOf('T2', at)]) - readOf('U', at));
    expect(primaryOf(found).estimate).toBeCloseTo(expected.estimate, 8);
    const ids = found.analyses.flatMap((one) => (one.kind === 'estimated' ? [one.estimate.id] : []));
    expect(ids).toEqual(expect.arrayContaining(['paired-series-of-T', 'paired-series-of-T2']));
  });

  it('answer with strips too, each stretch standing as one', () => {
    const strips = trialOf(['T', 'T2', 'U', 'U2']);
    const neighbours: Readonly<Record<string, string>> = { T2: 'T', U2: 'U' };
    const linked = strips.walls.map((wall) => {
      const beside = neighbours[wall.wall];
      return beside === undefined ? wall : { ...wall, neighbours: [beside] };
    });
    const found = formOpinion({ ...strips, walls: linked });
    expect(found.units.kind).toBe('strip');
    expect(primaryOf(found).walls).toEqual({ treated: 1, untreated: 1 });
    const expected = expectedOf(
      (at) => mean([readOf('T', at), readOf('T2', at)]) - mean([readOf('U', at), readOf('U2', at)]),
    );
    expect(primaryOf(found).estimate).toBeCloseTo(expected.estimate, 8);
    // Without the links they are four walls, compared as such.
    expect(formOpinion(strips).primary).toMatchObject({ kind: 'estimated', method: 'welch' });
  });
});

describe('walls read within a few days of each other', () => {
  it('are paired by visit up to three days apart, and the number is told', () => {
    const same = primaryOf(formOpinion(trialOf(['T', 'U'])));
    const late = formOpinion(trialOf(['T', 'U'], { late: { U: mostDaysApart } }));
    expect(primaryOf(late).estimate).toBeCloseTo(same.estimate, 10);
    expect(late.series?.series).toMatchObject({ visitsApart: 2 * visits });
    expect(primaryOf(late).method).toMatchObject({ visitsApart: 28 });
    expect(JSON.parse(opinionJson(late)).series.visitsApart).toBe(28);
    expect(formOpinion(trialOf(['T', 'U'])).series?.series.visitsApart).toBe(0);
  });

  it('are no common visit four days apart', () => {
    const apart = formOpinion(trialOf(['T', 'U'], { late: { U: mostDaysApart + 1 } }));
    expect(apart.primary).toMatchObject({
      kind: 'not-estimated',
      reason: { code: 'series-too-short', before: 0, after: 0, needed: 12 },
    });
  });

  it('pair each visit once, the nearest first, and never across the windows', () => {
    const close = trialOf(['T', 'U'], { late: { U: 1 } });
    const more = days.map((day): Reading => {
      const value = { kind: 'measured' as const, value: 99 };
      return { date: addDays(day, -2), wall: 'U', station: '', instrument: 'core', value, origin };
    });
    const found = formOpinion({ ...close, readings: [...close.readings, ...more] });
    expect(found.series?.series.visits).toHaveLength(2 * visits);
    expect(Math.max(...found.series!.series.visits.map(({ difference }) => Math.abs(difference)))).toBeLessThan(60);
  });

  it('pair several walls with the one that stands alone', () => {
    const found = formOpinion(trialOf(['T', 'U', 'U2'], { late: { U: 1, U2: -2 } }));
    expect(found.series?.series.visits.map(({ day }) => day)).toEqual(days);
    expect(found.series?.series.visitsApart).toBe(2 * visits);
  });

  it('need as many visits as ever', () => {
    const few = trialOf(['T', 'U', 'U2'], { isLost: (_, at) => at % visits >= fewestSeriesVisits - 1 });
    expect(formOpinion(few).primary).toMatchObject({
      kind: 'not-estimated',
      reason: { code: 'series-too-short', isOfTwo: false, before: 11, after: 11 },
    });
  });
});

describe('a trial without a margin', () => {
  it('has its primary answer all the same', () => {
    const trial = trialOf(['T', 'U', 'U2']);
    const { margin: _, ...protocol } = trial.protocol;
    const without = formOpinion({ ...trial, protocol });
    expect(primaryOf(without).estimate).toBe(primaryOf(formOpinion(trial)).estimate);
  });
});
