import { describe, expect, it } from 'vitest';
import {
  comparisonDesign,
  fewestSeriesVisits,
  pairedSeries,
  pairedSeriesAnswers,
  seriesChecks,
  seriesOfWalls,
  stationChanges,
  type WallChange,
  wallChanges,
} from '../../src/analysis/index.js';
import { moistureReadings } from '../../src/moisture/index.js';
import { formOpinion, type Opinion, verdictCode } from '../../src/opinion/index.js';
import { opinionJson } from '../../src/opinion/opinion-json.js';
import { reportDocument } from '../../src/opinion/report/report-document.js';
import { seriesSection } from '../../src/opinion/report/series-section.js';
import { seriesAnswers } from '../../src/opinion/two-walls/two-wall-series.js';
import { verdictSentence } from '../../src/opinion/verdict-sentence.js';
import type { Facts } from '../../src/opinion/weaknesses/facts.js';
import {
  driftBeforeTreatment,
  placeboAlarms,
  visitsMuchAlike,
  weatherWouldDo,
} from '../../src/opinion/weaknesses/series.js';
import { averagedContrast, normalDraws, randomStream, stepDesign } from '../../src/statistics/index.js';
import type { Reading, Station, Trial } from '../../src/trial/index.js';
import { type MadeWall, madeTrial, soundProtocol } from '../helpers/made-trial.js';

const windows = { before: { from: '2023-01-01', to: '2023-12-31' }, after: { from: '2024-06-01', to: '2025-05-31' } };
const origin = { file: 'readings.csv', row: 2 };

function dayAfter(first: string, days: number): string {
  return new Date(Date.parse(`${first}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
}

/** A day and how far the treated wall stands above 8, the untreated one standing at 8. */
type Visit = readonly [day: string, above: number];

/** Visits every three weeks in either window; `of` is told the window and how many days have passed in it. */
function visitsOf(count: number, of: (isAfter: boolean, days: number, at: number) => number): Visit[] {
  return [windows.before.from, windows.after.from].flatMap((first, window) =>
    Array.from({ length: count }, (_, k): Visit => {
      return [dayAfter(first, 21 * k), of(window === 1, 21 * k, window * count + k)];
    }),
  );
}

const noise = normalDraws(randomStream(20240611), 200);
const stepped = (step: number, count = 16, scatter = 0.2) =>
  visitsOf(count, (isAfter, _days, at) => (isAfter ? step : 0) + scatter * noise[at]!);

const stations = ['T', 'U'].flatMap((wall) =>
  [200, 900].map((height_mm): Station => ({ station: `${wall}-${height_mm}`, wall, height_mm, depth_mm: 50, origin })),
);
const offsets: Readonly<Record<string, number>> = { 'T-200': 1, 'T-900': -1, 'U-200': 1.5, 'U-900': -1.5 };

/** Both walls read at two heights at each visit, unless a reading is left out. */
function trialOf(visits: readonly Visit[], changes: Partial<Trial> = {}, isLost = (_: Reading) => false): Trial {
  const readings = visits.flatMap(([date, above]) =>
    stations.map(({ station, wall }): Reading => {
      const value = 8 + offsets[station]! + (wall === 'T' ? above : 0);
      return {
        date,
        wall,
        station,
        instrument: 'core',
        value: { kind: 'measured', value },
        reader: 'R1',
        knewArm: 'no',
        origin,
      };
    }),
  );
  const walls: MadeWall[] = [
    { wall: 'T', arm: 'treated' },
    { wall: 'U', arm: 'sham' },
  ];
  const protocol = { ...soundProtocol, windows, plannedOn: '2022-12-01' };
  return madeTrial(walls, { protocol, stations, readings: readings.filter((reading) => !isLost(reading)), ...changes });
}

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

/** What the weaknesses of a series are judged from. */
function factsOf(visits: readonly Visit[]): Facts {
  const trial = trialOf(visits);
  const series = seriesOf(trial);
  const checks = seriesChecks(series, { level });
  if (checks === undefined) throw new Error('the series cannot be judged');
  const primary = pairedSeries(series, { level, unit: '% by mass' });
  return { trial, primary, series: { series, checks } } as unknown as Facts;
}

describe('seriesOfWalls', () => {
  it('seriesOfWalls compares like heights, and a missed reading does not pull its visit', () => {
    const visits = stepped(-1);
    const whole = seriesOf(trialOf(visits));
    expect(whole.matchedPlaces).toBe(2);
    expect(whole.visits.map(({ day }) => day)).toEqual(visits.map(([day]) => day));
    for (const [at, { difference }] of whole.visits.entries()) expect(difference).toBeCloseTo(visits[at]![1], 10);
    const lossy = seriesOf(trialOf(visits, {}, ({ date, station }) => station === 'U-200' && date === visits[20]![0]));
    expect(lossy.visits[20]?.difference).toBeCloseTo(visits[20]![1], 10);
  });

  it('seriesOfWalls takes whole walls where heights are not known, and only days on which both were read', () => {
    const visits = stepped(-1);
    const unread = visits[3]![0];
    const trial = trialOf(visits, { stations: [] }, ({ date, wall }) => wall === 'U' && date === unread);
    const { visits: found, matchedPlaces } = seriesOf(trial);
    expect(matchedPlaces).toBe(0);
    expect(found.map(({ day }) => day)).toEqual(visits.map(([day]) => day).filter((day) => day !== unread));
    expect(found[4]?.difference).toBeCloseTo(visits[5]![1], 10);
  });
});

describe('a trial of two walls read often enough', () => {
  const visits = stepped(-4);
  const opinion = formOpinion(trialOf(visits));

  it('has the averaged contrast of its visits as the primary answer, and the verdict from it', () => {
    const expected = averagedContrast(
      {
        design: stepDesign(visits.map(([day]) => (day >= windows.after.from ? 1 : 0))),
        response: visits.map(([, above]) => above),
        times: visits.map(([day]) => Date.parse(day) / 86_400_000),
      },
      { step: 1 },
    );
    if (opinion.primary.kind !== 'estimated') throw new Error(opinion.primary.reason);
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
    expect(weaknessOf(opinion, 'one-wall-an-arm')).toMatchObject({ seriousness: 'serious', evidenceAtBest: 'shaky' });
    expect(opinion.verdict.weaknesses.filter(({ seriousness }) => seriousness !== 'minor')).toHaveLength(1);
  });

  it.each([
    [-2, 'some-effect', /did better, perhaps not by a worthwhile amount/],
    [-1, 'smaller-than-worthwhile', /did a little better/],
    [0, 'no-worthwhile-effect', /did not do better by a worthwhile amount/],
    [3, 'harmful', /did worse than the other/],
  ] as const)('after a step of %d says %s in words of its own', (step, code, words) => {
    const { trial, primary } = factsOf(stepped(step));
    if (primary.kind !== 'estimated') throw new Error(primary.reason);
    expect(verdictCode(primary.estimate.interval, 2, 'lower')).toBe(code);
    const facts = { code, evidence: 'shaky', protocol: trial.protocol, primary, walls: [], weaknesses: [] } as const;
    expect(verdictSentence(facts)).toMatch(words);
    expect(verdictSentence(facts)).toMatch(/^Of these two walls only: /);
  });

  it('turns its sign round with the arms', () => {
    const series = seriesOf(trialOf(visits));
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
  const threatOf = ({ judging }: Opinion) => judging?.threats.find(({ code }) => code === 'placebo-dates');

  it('finds in their series that nothing happened before the treatment, or that something did', () => {
    expect(threatOf(formOpinion(trialOf(stepped(-4))))).toMatchObject({
      outcome: 'quiet',
      fact: expect.stringMatching(
        /^Looked for at 9 dates before the treatment, a change was “found” at 0\. Trend before: /,
      ),
    });
    const drifting = visitsOf(16, (isAfter, days, at) => (isAfter ? -4 : (-0.3 * days) / 30) + 0.1 * noise[at]!);
    expect(threatOf(formOpinion(trialOf(drifting)))).toMatchObject({
      outcome: 'warns',
      direction: 'towards the claim',
      fact: expect.stringMatching(/Trend before: −0\.(29|30|31)\d* % by mass in 30 days/),
    });
  });

  it('does not presume several walls an arm', () => {
    const { sections } = reportDocument(formOpinion(trialOf(stepped(-4))));
    const text = JSON.stringify(sections);
    expect(text).toContain('The treated wall’s change less the untreated wall’s');
    expect(text).not.toMatch(/The difference is an average|1 walls|1 stations|1 untreated walls|product limit/);
    // What could not be computed for the same reason is told together.
    expect(text).toMatch(/Adjusted for the before value; [^"]*By drawing walls again/);
  });
});

describe('a trial of two walls', () => {
  it('is not answerable with one common visit fewer than asked for, and says how many there are', () => {
    const few = formOpinion(trialOf(stepped(-4, fewestSeriesVisits - 1)));
    expect([few.verdict.code, few.verdict.evidence]).toEqual(['not-answerable', 'none']);
    expect(few.primary).toMatchObject({
      kind: 'not-estimated',
      reason: expect.stringMatching(/11 common days before and 11 after.*12 of each/),
    });
    expect(weaknessOf(few, 'one-wall-an-arm')?.seriousness).toBe('fatal');
    expect(weaknessOf(few, 'one-wall-an-arm')?.remedy).toMatch(/at least 12 times before and 12 after/);
    expect(formOpinion(trialOf(stepped(-4, fewestSeriesVisits))).verdict.code).toBe('worthwhile');
  });

  it('is not answerable where the difference never varies', () => {
    const { primary, verdict } = formOpinion(trialOf(stepped(-4, 16, 0)));
    expect(verdict.code).toBe('not-answerable');
    expect(primary).toMatchObject({
      kind: 'not-estimated',
      reason: expect.stringMatching(/does not vary between visits/),
    });
  });

  it('is what is left of a larger trial only by losing walls, and then no series', () => {
    const trial = trialOf(stepped(-4));
    const more = { ...trial, walls: [...trial.walls, { wall: 'T2', arm: 'treated', origin }] };
    expect(formOpinion(more).series).toBeUndefined();
  });
});

describe('weaknesses of a series of two walls', () => {
  it('are not found where there are none', () => {
    const facts = factsOf(stepped(-4));
    expect([visitsMuchAlike(facts), driftBeforeTreatment(facts), placeboAlarms(facts), weatherWouldDo(facts)]).toEqual([
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
  });

  it('visits-much-alike where the difference wanders', () => {
    let carried = 0;
    const wandering = visitsOf(16, (isAfter, _days, at) => {
      carried = 0.9 * carried + 0.2 * noise[at]!;
      return carried - (isAfter ? 4 : 0);
    });
    const weakness = visitsMuchAlike(factsOf(wandering));
    expect(weakness?.text).toMatch(/autocorrelation about 0\.[5-9]\d.*16 visits of the shorter window are worth about/);
  });

  it('drift-before-treatment where the walls were coming apart, with its size in 30 days', () => {
    const drifting = visitsOf(16, (isAfter, days, at) => (isAfter ? -4 : (-0.3 * days) / 30) + 0.1 * noise[at]!);
    expect(driftBeforeTreatment(factsOf(drifting))).toMatchObject({
      seriousness: 'serious',
      text: expect.stringMatching(/falling .* by 0\.(29|30|31)\d? % by mass in 30 days/),
    });
  });

  it('placebo-alarms where something happened before the treatment', () => {
    const facts = factsOf(visitsOf(16, (isAfter, days, at) => (isAfter ? -4 : days > 150 ? -1 : 0) + 0.1 * noise[at]!));
    const alarms = facts.series?.checks?.placebo.filter(({ isAlarm }) => isAlarm).length;
    expect(alarms).toBeGreaterThan(0);
    expect(placeboAlarms(facts)?.text).toContain(`“found” at ${alarms}`);
    const { placebo, placeboPValue } = facts.series!.checks!;
    expect(placeboPValue).toBeCloseTo(9 * Math.min(...placebo.map(({ pValue }) => pValue)), 12);
    // One alarm among nine dates is no wonder where its p-value alone is just below the level.
    const checks = { ...facts.series!.checks!, placeboPValue: 9 * 0.04 };
    expect(placeboAlarms({ ...facts, series: { ...facts.series!, checks } })).toBeUndefined();
  });

  it('weather-would-do where the air alone moves the walls apart, and not where it does not', () => {
    const air = (at: number) => Math.sin(at) + (at < 16 ? 0 : 3);
    const answersOf = (facts: Facts) => {
      const days = facts.series!.series.visits.map(({ day }, at): [string, number] => [day, 100 * air(at)]);
      const options = { level, unit: '% by mass', seed: 1, weather: new Map(days) };
      return { ...facts, analyses: pairedSeriesAnswers(facts.series!.series, options) };
    };
    const moved = visitsOf(16, (_isAfter, _days, at) => -air(at) + 0.2 * noise[at]!);
    const treated = visitsOf(16, (isAfter, _days, at) => (isAfter ? -3 : 0) + 0.05 * noise[at]!);
    expect(weatherWouldDo(answersOf(factsOf(moved)))).toMatchObject({
      code: 'weather-would-do',
      seriousness: 'serious',
    });
    expect(weatherWouldDo(answersOf(factsOf(treated)))).toBeUndefined();
  });
});

describe('pairs of walls read often enough', () => {
  it('have their series pooled beside the primary answer, pairs as the units', () => {
    const pairs = [-3, -4, -5].map((step) => trialOf(stepped(step)));
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
