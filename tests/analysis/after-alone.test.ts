import { describe, expect, it } from 'vitest';
import {
  baselineAdjusted,
  bootstrapDifference,
  clusterRobustDifference,
  comparisonDesign,
  primaryDifference,
  randomisation,
  stationChanges,
  wallChanges,
} from '../../src/analysis/index.js';
import { moistureReadings } from '../../src/moisture/index.js';
import { formOpinion } from '../../src/opinion/index.js';
import { reportDocument } from '../../src/report/report-document.js';
import { toMarkdown } from '../../src/report/writers/to-markdown.js';
import { welch } from '../../src/statistics/index.js';
import type { Trial } from '../../src/trial/index.js';
import { type MadeWall, madeTrial, soundProtocol } from '../helpers/made-trial.js';

const treated = [4.1, 5.2, 3.9, 4.6, 4.4, 5.0];
const untreated = [8.0, 8.9, 7.6, 8.4, 9.1, 8.2];
const walls: MadeWall[] = [
  ...treated.map((after, at) => ({ wall: `T${at}`, arm: 'treated', after })),
  ...untreated.map((after, at) => ({ wall: `U${at}`, arm: 'sham', after })),
];
const drawn = madeTrial(walls);
const options = { level: 0.95, unit: '% by mass', seed: 1 };

function changesOf(trial: Trial) {
  const found = stationChanges(trial, moistureReadings(trial));
  return { ...found, ...wallChanges(trial, found.stations), leftOutReadings: found.leftOut };
}

describe('walls randomised and never read before', () => {
  const { walls: compared, stations, used, leftOutReadings } = changesOf(drawn);
  const { design } = comparisonDesign(compared);

  it('are compared by their after values: Welch’s interval of these, and in words', () => {
    expect(compared[0]).toEqual({
      ...{
        wall: 'T0',
        arm: 'treated',
        side: 'treated',
        block: '',
        after: 4.1,
        change: 4.1,
        stations: 1,
        places: 'same',
      },
    });
    const primary = primaryDifference(design, options);
    if (primary.kind !== 'estimated') throw new Error(primary.reason.code);
    const expected = welch(treated, untreated, { level: 0.95 });
    expect(primary.estimate).toMatchObject({ estimate: expected.estimate, interval: expected.interval });
    expect(primary.estimate.method).toEqual({ kind: 'welch', compared: { units: 'wall', value: 'after' } });
    expect([used.length, leftOutReadings]).toEqual([12, []]);
  });

  it('have the other analyses that need no before value, and none that does', () => {
    const all = [
      randomisation(design, { ...options, allocation: 'randomised' }),
      bootstrapDifference(design, options),
      clusterRobustDifference(design, stations, options),
    ];
    for (const answer of all) {
      if (answer.kind !== 'estimated') throw new Error(answer.notEstimated.reason.code);
      expect(answer.estimate.method).toMatchObject({ compared: { value: 'after' } });
    }
    expect(baselineAdjusted(design, options)).toMatchObject({
      kind: 'not-estimated',
      notEstimated: { reason: { code: 'no-before' } },
    });
  });

  it('have an opinion, which never speaks of a change from before', () => {
    const opinion = formOpinion(drawn);
    expect(opinion.verdict.code).toBe('worthwhile');
    expect(opinion.judging?.nothing.map(({ kind }) => kind)).not.toContain('estimated');
    expect(toMarkdown(reportDocument(opinion))).not.toMatch(/NaN|undefined/);
  });

  it('are paired and blocked as changes are', () => {
    const pairs = madeTrial(walls.map((wall, at) => ({ ...wall, block: `P${at % 6}` })));
    const primary = primaryDifference(comparisonDesign(changesOf(pairs).walls).design, options);
    expect(primary).toMatchObject({ kind: 'estimated', method: 'paired-blocks' });
  });
});

describe('after values alone', () => {
  it('are not compared where the walls were chosen', () => {
    const chosen = { ...drawn, protocol: { ...soundProtocol, allocation: { method: 'chosen' as const, by: '' } } };
    expect(changesOf(chosen).walls).toEqual([]);
    expect(formOpinion(chosen).primary.kind).toBe('not-estimated');
  });

  it('are not compared where a single wall was read before: that one alone has a change', () => {
    const one = madeTrial(walls.map((wall, at) => (at === 0 ? { ...wall, before: 8 } : wall)));
    expect(changesOf(one).walls.map(({ wall }) => wall)).toEqual(['T0']);
  });

  it('are compared where all that was read before the after window came after the treatment', () => {
    const late = madeTrial(walls.map((wall) => ({ ...wall, before: 8 })));
    const treatedOn = (day: string) => ({ ...late, walls: late.walls.map((wall) => ({ ...wall, treatedOn: day })) });
    expect(changesOf(treatedOn('2024-04-10')).walls).toHaveLength(12);
    expect(changesOf(treatedOn('2024-04-10')).walls[0]).not.toHaveProperty('before');
    expect(changesOf(treatedOn('2024-04-11')).walls[0]).toHaveProperty('before', 8);
  });

  it('do not stand in where a choice of readings leaves out those before', () => {
    const trial = madeTrial(walls.map((wall) => ({ ...wall, before: 8 })));
    const readings = moistureReadings(trial).filter(({ day }) => day > '2025');
    expect(wallChanges(trial, stationChanges(trial, readings).stations).walls).toEqual([]);
  });
});
