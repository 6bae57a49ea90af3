import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import { comparisonDesign, type Primary, pairedSeries, primaryDifference } from '../../../src/analysis/index.js';
import { confidenceCurve } from '../../../src/findings/answer/confidence-curve.js';
import { answerOfTrial } from '../../../src/opinion/answer-of-trial.js';
import { bundledTrial } from '../../helpers/bundled-opinions.js';
import { madeTrial, wallsWithChanges } from '../../helpers/made-trial.js';

type Estimated = Extract<Primary, { kind: 'estimated' }>;

function estimated(primary: Primary): Estimated {
  if (primary.kind !== 'estimated') throw new Error('needs an estimate');
  return primary;
}

const blocks = ['a', 'a', 'a', 'b', 'b', 'c', 'c', 'c'];
const answers: Readonly<Record<Exclude<Estimated['method'], 'paired-series'>, () => Promise<Primary>>> = {
  'paired-blocks': async () => answerOfTrial(await bundledTrial('paired-garden-walls')).primary,
  welch: async () => answerOfTrial(await bundledTrial('picked-for-being-wet')).primary,
  'block-model': async () => {
    const walls = wallsWithChanges([-1, -2.5, -1.5, -4], [0, 0.5, -0.75, 0.25]);
    return answerOfTrial(madeTrial(walls.map((wall, at) => ({ ...wall, block: blocks[(at * 5) % 8] ?? 'a' })))).primary;
  },
};

describe.each(Object.entries(answers))('confidenceCurve(primary) of %s', (method, answer) => {
  it('is the two-sided p-value of Student’s t at every point, by jStat', async () => {
    const primary = estimated(await answer());
    expect(primary.method).toBe(method);
    const { estimate, standardError = 0, degreesOfFreedom = 0 } = primary.estimate;
    const { points = [] } = confidenceCurve(primary) ?? {};
    expect(points.length).toBeGreaterThan(40);
    for (const { value, pValue } of points) {
      const t = -Math.abs(value - estimate) / standardError;
      expect(2 * jstat.jStat.studentt.cdf(t, degreesOfFreedom)).toBeCloseTo(pValue, 7);
    }
  });

  it('crosses 0.05 at the limits of the 95 % interval, and holds the narrower ones inside it', async () => {
    const primary = estimated(await answer());
    const { points = [], intervals = [] } = confidenceCurve(primary) ?? {};
    const at = points.filter(({ pValue }) => Math.abs(pValue - 0.05) < 1e-12).map(({ value }) => value);
    const { lower, upper } = primary.estimate.interval;
    expect(at).toHaveLength(2);
    expect(at[0]).toBeCloseTo(lower, 10);
    expect(at[1]).toBeCloseTo(upper, 10);
    expect(intervals.map(({ level }) => level)).toEqual([0.5, 0.8, 0.95]);
  });
});

describe('confidenceCurve(primary, series)', () => {
  it('is the p-value of the two walls’ own method against every difference', async () => {
    const { primary, twoWalls } = answerOfTrial(await bundledTrial('windward-and-sheltered'));
    const series = twoWalls?.series;
    if (series === undefined) throw new Error('needs a series');
    const { points = [] } = confidenceCurve(primary, series) ?? {};
    for (const { value, pValue } of [points[4], points[12], points[30], points.at(-6)].flatMap((one) => one ?? [])) {
      const visits = series.visits.map((visit) =>
        visit.window === 'after' ? { ...visit, difference: visit.difference - value } : visit,
      );
      const shifted = estimated(pairedSeries({ ...series, visits }, { level: 0.95, unit: '' }));
      expect(shifted.estimate.pValue).toBeCloseTo(pValue, 6);
    }
  });

  it('has no curve without the visits', async () => {
    const { primary } = answerOfTrial(await bundledTrial('windward-and-sheltered'));
    expect(confidenceCurve(primary)).toBeUndefined();
  });
});

describe('confidenceCurve', () => {
  const { design } = comparisonDesign(
    answerOfTrial(madeTrial(wallsWithChanges([-1, -2.5, -1.5], [0, 0.5, -0.75]))).walls,
  );
  const at = (level: number) => estimated(primaryDifference(design, { level, unit: '% by mass' }));

  it('shows the level of the plan in place of 95 %, and no wider one', () => {
    expect(confidenceCurve(at(0.9))?.intervals.map(({ level }) => level)).toEqual([0.5, 0.8, 0.9]);
    expect(confidenceCurve(at(0.7))?.intervals.map(({ level }) => level)).toEqual([0.5, 0.7]);
    expect(confidenceCurve(at(0.99))?.intervals.map(({ level }) => level)).toEqual([0.5, 0.8, 0.99]);
  });

  it('is not drawn where it would miss the interval that was answered', () => {
    const primary = at(0.95);
    const { interval } = primary.estimate;
    const moved = (by: number) => ({ ...interval, upper: interval.upper + by * (interval.upper - interval.lower) });
    const withInterval = (by: number) => ({ ...primary, estimate: { ...primary.estimate, interval: moved(by) } });
    expect(confidenceCurve(withInterval(1e-12))).toBeDefined();
    expect(confidenceCurve(withInterval(1e-6))).toBeUndefined();
  });

  it('is not drawn without a standard error, nor without an answer', () => {
    const primary = at(0.95);
    const { standardError: _, ...bare } = primary.estimate;
    expect(confidenceCurve({ ...primary, estimate: bare })).toBeUndefined();
    expect(
      confidenceCurve({ kind: 'not-estimated', reason: { code: 'single-pair' }, walls: { treated: 1, untreated: 1 } }),
    ).toBeUndefined();
  });
});
