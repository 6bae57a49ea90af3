import { describe, expect, it } from 'vitest';
import {
  comparisonDesign,
  fewestSeriesVisits,
  pairedSeries,
  seriesOfWalls,
  stationChanges,
  verdictCode,
  type WallChange,
  wallChanges,
} from '../../../src/analysis/index.js';
import { seriesAnswers } from '../../../src/findings/two-walls/two-wall-series.js';
import { moistureReadings } from '../../../src/moisture/index.js';
import { formOpinion, type Opinion } from '../../../src/opinion/index.js';
import { verdictSentence } from '../../../src/opinion/verdict-sentence.js';
import { reportDocument } from '../../../src/report/report-document.js';
import { seriesSection } from '../../../src/report/sections/series-section.js';
import { opinionJson } from '../../../src/report/writers/opinion-json.js';
import { averagedContrast, stepDesign } from '../../../src/statistics/index.js';
import type { Trial } from '../../../src/trial/index.js';
import { noise, stepped, trialOfTwo, type Visit, visitsOf, windowsOfTwo } from '../../helpers/trial-of-two.js';

const windows = windowsOfTwo;

function weaknessOf(opinion: Opinion, code: string) {
  return opinion.verdict.weaknesses.find((weakness) => weakness.code === code);
}

/** The series with walls placed by hand, which needs no opinion. */
function seriesOf(trial: Trial) {
  const place = (wall: string, side: WallChange['side']): WallChange => {
    return { wall, arm: side, side, block: '', before: 8, after: 8, change: 0, stations: 2, places: 'same' };
  };
  return seriesOfWalls(trial, moistureReadings(trial), place('T', 'treated'), place('U', 'untreated'));
}

const level = 0.95;

/** The answer of a series. */
function judged(visits: readonly Visit[]) {
  const trial = trialOfTwo(visits);
  return { trial, primary: pairedSeries(seriesOf(trial), { level, unit: '% by mass' }) };
}

describe('seriesOfWalls', () => {
  it('seriesOfWalls compares like heights, and a missed reading does not pull its visit', () => {
    const visits = stepped(-1);
    const whole = seriesOf(trialOfTwo(visits));
    expect(whole.matchedPlaces).toBe(2);
    expect(whole.visits.map(({ day }) => day)).toEqual(visits.map(([day]) => day));
    for (const [at, { difference }] of whole.visits.entries()) expect(difference).toBeCloseTo(visits[at]![1], 10);
    const lossy = seriesOf(
      trialOfTwo(visits, {}, ({ date, station }) => station === 'U-200' && date === visits[20]![0]),
    );
    expect(lossy.visits[20]?.difference).toBeCloseTo(visits[20]![1], 10);
  });

  it('seriesOfWalls takes whole walls where heights are not known, and only days on which both were read', () => {
    const visits = stepped(-1);
    const unread = visits[3]![0];
    const trial = trialOfTwo(visits, { stations: [] }, ({ date, wall }) => wall === 'U' && date === unread);
    const { visits: found, matchedPlaces } = seriesOf(trial);
    expect(matchedPlaces).toBe(0);
    expect(found.map(({ day }) => day)).toEqual(visits.map(([day]) => day).filter((day) => day !== unread));
    expect(found[4]?.difference).toBeCloseTo(visits[5]![1], 10);
  });
});

describe('a trial of two walls read often enough', () => {
  const visits = stepped(-4);
  const opinion = formOpinion(trialOfTwo(visits));

  it('has the averaged contrast of its visits as the primary answer, and the verdict from it', () => {
    const expected = averagedContrast(
      {
        design: stepDesign(visits.map(([day]) => (day >= windows.after.from ? 1 : 0))),
        response: visits.map(([, above]) => above),
        times: visits.map(([day]) => Date.parse(day) / 86_400_000),
      },
      { step: 1 },
    );
    if (opinion.primary.kind !== 'estimated') throw new Error(opinion.primary.reason.code);
    expect(opinion.primary.method).toBe('paired-series');
    expect(opinion.primary.estimate.estimate).toBeCloseTo(expected.estimate, 8);
    expect(opinion.primary.estimate.interval.lower).toBeCloseTo(expected.interval.lower, 8);
    expect(opinion.verdict.code).toBe(verdictCode(expected.interval, 2, 'lower'));
    expect(opinion.verdict.code).toBe('worthwhile');
  });

  it('speaks of these two walls only, and its evidence is shaky however little else is wrong', () => {
    expect(opinion.verdict.sentence).toMatch(
      /^Of these two walls only: the treated one did better by a worthwhile amount/,
    );
    expect(opinion.verdict.evidence).toBe('shaky');
    expect(opinion.threats.find(({ code }) => code === 'one-wall-an-arm')).toMatchObject({
      seriousness: 'serious',
      evidenceAtBest: 'shaky',
    });
    expect(opinion.verdict.weaknesses.filter(({ seriousness }) => seriousness !== 'minor')).toHaveLength(1);
  });

  it.each([
    [-2, 'some-effect', /did better, perhaps not by a worthwhile amount/],
    [-1, 'smaller-than-worthwhile', /did a little better/],
    [0, 'no-worthwhile-effect', /did not do better by a worthwhile amount/],
    [3, 'harmful', /did worse than the other/],
  ] as const)('after a step of %d says %s in words of its own', (step, code, words) => {
    const { trial, primary } = judged(stepped(step));
    if (primary.kind !== 'estimated') throw new Error(primary.reason.code);
    expect(verdictCode(primary.estimate.interval, 2, 'lower')).toBe(code);
    const facts = { code, evidence: 'shaky', protocol: trial.protocol, primary, walls: [], weaknesses: [] } as const;
    expect(verdictSentence(facts)).toMatch(words);
    expect(verdictSentence(facts)).toMatch(/^Of these two walls only: /);
  });

  it('turns its sign round with the arms', () => {
    const series = seriesOf(trialOfTwo(visits));
    const turned = { ...series, visits: series.visits.map((visit) => ({ ...visit, difference: -visit.difference })) };
    const options = { level: 0.95, unit: '% by mass' };
    const [one, other] = [pairedSeries(series, options), pairedSeries(turned, options)];
    if (one.kind !== 'estimated' || other.kind !== 'estimated') throw new Error('not estimated');
    expect(other.estimate.estimate).toBeCloseTo(-one.estimate.estimate, 8);
    expect(other.estimate.interval.lower).toBeCloseTo(-one.estimate.interval.upper, 8);
  });

  it('shows the visits, the levels and what the series says of itself, in the report and in opinion.json', () => {
    const section = seriesSection(opinion);
    expect(section?.blocks.map(({ kind }) => kind)).toEqual(['paragraph', 'figure', 'table', 'paragraph']);
    expect(JSON.stringify(section)).toMatch(/Placebo dates with a false alarm"\],\["\d of 9 \(all together: p = /);
    const { primary, series, analyses } = JSON.parse(opinionJson(opinion));
    expect(primary).toMatchObject({ id: 'wall-change', method: 'paired-series', degreesOfFreedom: null });
    expect(series.visits).toHaveLength(32);
    expect(analyses.map(({ id }: { id: string }) => id)).toEqual(
      expect.arrayContaining(['paired-series', 'paired-series-robust', 'paired-series-trend']),
    );
  });
});

describe('the report on two walls', () => {
  const threatOf = ({ threats }: Opinion, code: string) => threats.find((one) => one.code === code);

  it('finds in their series that nothing happened before the treatment, or that something did', () => {
    const quiet = formOpinion(trialOfTwo(stepped(-4)));
    expect(threatOf(quiet, 'placebo-alarms')).toMatchObject({
      finding: 'not-found',
      measure: { value: 0, unit: 'dates' },
      text: expect.stringMatching(
        /^At 9 dates before the treatment, when nothing was done, a change was “found” at 0;/,
      ),
    });
    const drifting = visitsOf(16, (isAfter, days, at) => (isAfter ? -4 : (-0.3 * days) / 30) + 0.1 * noise[at]!);
    const drift = threatOf(formOpinion(trialOfTwo(drifting)), 'drift-before-treatment');
    expect(drift).toMatchObject({ finding: 'found', seriousness: 'serious', direction: 'towards the claim' });
    expect(drift?.measure?.value).toBeCloseTo(-0.3, 1);
    expect(drift?.text).toContain('fell against the untreated by');
  });

  it('does not presume several walls an arm', () => {
    const { sections } = reportDocument(formOpinion(trialOfTwo(stepped(-4))));
    const text = JSON.stringify(sections);
    expect(text).toContain('The treated wall’s change less the untreated wall’s');
    expect(text).not.toMatch(/The difference is an average|1 walls|1 stations|1 untreated walls|product limit/);
    // What could not be computed for the same reason is told together.
    expect(text).toMatch(/Baseline-adjusted \(ANCOVA\); [^"]*Bootstrap, resampling walls/);
  });
});

describe('a trial of two walls', () => {
  it('is not answerable with one common visit fewer than asked for, and says how many there are', () => {
    const few = formOpinion(trialOfTwo(stepped(-4, fewestSeriesVisits - 1)));
    expect([few.verdict.code, few.verdict.evidence]).toEqual(['not-answerable', 'none']);
    expect(few.primary).toMatchObject({
      kind: 'not-estimated',
      reason: { code: 'series-too-short', isOfTwo: true, before: 11, after: 11, needed: 12 },
    });
    expect(weaknessOf(few, 'one-wall-an-arm')?.seriousness).toBe('fatal');
    expect(weaknessOf(few, 'one-wall-an-arm')?.remedy).toMatch(/at least 12 times before and 12 after/);
    expect(formOpinion(trialOfTwo(stepped(-4, fewestSeriesVisits))).verdict.code).toBe('worthwhile');
  });

  it('is not answerable where the difference never varies', () => {
    const { primary, verdict } = formOpinion(trialOfTwo(stepped(-4, 16, 0)));
    expect(verdict.code).toBe('not-answerable');
    expect(primary).toMatchObject({
      kind: 'not-estimated',
      reason: { code: 'series-does-not-vary' },
    });
  });

  it('is what is left of a larger trial only by losing walls, and then no series', () => {
    const trial = trialOfTwo(stepped(-4));
    const more = {
      ...trial,
      walls: [...trial.walls, { wall: 'T2', arm: 'treated', origin: { file: 'walls.csv', row: 4 } }],
    };
    expect(formOpinion(more).series).toBeUndefined();
  });
});

describe('pairs of walls read often enough', () => {
  it('have their series pooled beside the primary answer, pairs as the units', () => {
    const pairs = [-3, -4, -5].map((step) => trialOfTwo(stepped(step)));
    const renamed = pairs.map((trial, pair) => {
      const name = <T extends { readonly wall: string }>(one: T) => ({ ...one, wall: `${one.wall}${pair}` });
      return {
        walls: trial.walls.map((wall) => ({ ...name(wall), block: `P${pair}` })),
        stations: trial.stations.map(name),
        readings: trial.readings.map(name),
      };
    });
    const trial = {
      ...pairs[0]!,
      walls: renamed.flatMap(({ walls }) => walls),
      stations: renamed.flatMap(({ stations: own }) => own),
      readings: renamed.flatMap(({ readings }) => readings),
    };
    const used = moistureReadings(trial);
    const { design } = comparisonDesign(wallChanges(trial, stationChanges(trial, used).stations).walls);
    const [answer] = seriesAnswers({ trial, used, design, twoWalls: undefined, units: design.walls, seed: 1 });
    if (answer?.kind !== 'estimated') throw new Error('not estimated');
    const pooled = answer.estimate;
    expect(pooled.id).toBe('paired-series');
    expect(pooled).toMatchObject({ degreesOfFreedom: 2, walls: { treated: 3, untreated: 3 } });
    // The pairs have the same noise, so that their steps lie exactly 1 apart.
    expect(pooled.standardError).toBeCloseTo(1 / Math.sqrt(3), 6);
  });
});
