import { describe, expect, it } from 'vitest';
import {
  designOfStations,
  effectBeforeTreatment,
  primaryDifference,
  readingsByKnowledge,
  stationChanges,
} from '../../src/analysis/index.js';
import { withOtherWindows } from '../../src/analysis/judging/other-windows.js';
import { moistureReadings } from '../../src/moisture/index.js';
import { formOpinion } from '../../src/opinion/index.js';
import type { Trial } from '../../src/trial/index.js';
import { staggered } from '../helpers/staggered-trial.js';

const trial = staggered(true);
const readings = moistureReadings(trial);

function effectOf(from: Trial): number {
  const found = stationChanges(from, moistureReadings(from));
  const primary = primaryDifference(designOfStations(from, found.stations).design, { level: 0.95, unit: '%' });
  if (primary.kind !== 'estimated') throw new Error(primary.reason.code);
  return primary.estimate.estimate;
}

describe('walls treated one after the other, each with its own windows', () => {
  it('are compared each by its own before and after', () => {
    expect(effectOf(trial)).toBeCloseTo(-3, 0);
    const { used, leftOut } = stationChanges(trial, readings);
    expect(new Set(used.filter(({ wall }) => wall === 'W0').map(({ day }) => day.slice(5, 7)))).toEqual(
      new Set(['03', '05']),
    );
    expect(new Set(used.filter(({ wall }) => wall === 'W4').map(({ day }) => day.slice(5, 7)))).toEqual(
      new Set(['09', '11']),
    );
    expect(leftOut).toMatchObject([{ reason: { code: 'outside' }, count: 8 * 8 }]);
  });

  it('are tried in other windows, each moved from its own', () => {
    const answers = withOtherWindows(trial, readings);
    expect(answers).toHaveLength(6);
    for (const answer of answers) {
      if (answer.kind !== 'estimated') throw new Error(answer.notEstimated.reason.code);
      expect(answer.estimate.estimate).toBeCloseTo(-3, 0);
      expect(answer.estimate.walls).toEqual({ treated: 4, untreated: 4 });
    }
  });

  it('show no effect before the treatment, looked for in each one’s own days before it', () => {
    const answer = effectBeforeTreatment(trial, readings);
    if (answer.kind !== 'estimated') throw new Error(answer.notEstimated.reason.code);
    expect(Math.abs(answer.estimate.estimate)).toBeLessThan(0.2);
    expect(answer.estimate.walls).toEqual({ treated: 4, untreated: 4 });
    // An effect planted before the treatment of the later walls alone is found there.
    const planted = readings.map((reading) =>
      reading.day === '2024-11-20' && ['W4', 'W6'].includes(reading.wall) && reading.value.kind === 'measured'
        ? { ...reading, value: { kind: 'measured' as const, value: reading.value.value - 8 } }
        : reading,
    );
    const found = effectBeforeTreatment(trial, planted);
    // Half of the later half’s readings of half of the treated walls: −8 / 2 / 2.
    if (found.kind !== 'estimated') throw new Error(found.notEstimated.reason.code);
    expect(found.estimate.estimate - answer.estimate.estimate).toBeCloseTo(-2, 10);
  });

  it('have their after readings counted by their own windows', () => {
    const { stations } = stationChanges(trial, readings);
    const { design } = designOfStations(trial, stations);
    const primary = primaryDifference(design, { level: 0.95, unit: '%' });
    if (primary.kind !== 'estimated') throw new Error(primary.reason.code);
    const answer = { kind: 'estimated' as const, estimate: primary.estimate };
    expect(readingsByKnowledge(trial, readings, { design, primary: answer }).counts.no).toBe(8 * 4);
  });

  it('form an opinion', () => {
    const opinion = formOpinion(trial);
    expect(opinion.primary).toMatchObject({ kind: 'estimated', method: 'paired-blocks' });
  });
});
