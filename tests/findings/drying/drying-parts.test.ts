import { describe, expect, it } from 'vitest';
import type { Answer } from '../../../src/analysis/index.js';
import { adjustedAnswers } from '../../../src/findings/drying/adjusted-answers.js';
import { amountBefore, stretchesByPlace } from '../../../src/findings/drying/amounts-before.js';
import type { WallCurve } from '../../../src/findings/drying/drying-part.js';
import { daysToGoalsAnswers, timesToGoals } from '../../../src/findings/drying/times-to-goals.js';
import { wettingOfTrial } from '../../../src/findings/drying/wetting-of-trial.js';
import type { Opinion } from '../../../src/index.js';
import { labelOf } from '../../../src/labels/index.js';
import type { MoistureReading } from '../../../src/moisture/index.js';
import { addDays } from '../../../src/plain/days.js';
import { wettingSection } from '../../../src/report/sections/wetting-section.js';
import { normalDraws, randomStream } from '../../../src/statistics/index.js';
import type { AdjustmentName, ClimateReading, Trial } from '../../../src/trial/index.js';
import { madeTrial, soundProtocol, wallsWithChanges } from '../../helpers/made-trial.js';

const origin = { file: 'climate.csv', row: 2 };
const dayAt = (time_d: number) => addDays('2024-03-01', time_d);

function estimateOf(answer: Answer | undefined) {
  if (answer?.kind !== 'estimated') throw new Error(answer?.notEstimated.reason.code ?? 'no answer');
  return answer.estimate;
}

describe('amountBefore(stretches, day), stretchesByPlace(climate, amountOf)', () => {
  const rain = (time: string, rain_mm?: number, place = 'yard'): ClimateReading => ({
    time,
    place,
    ...(rain_mm === undefined ? {} : { rain_mm }),
    origin,
  });
  const of = (...rows: readonly ClimateReading[]) => stretchesByPlace(rows, ({ rain_mm }) => rain_mm);

  it('counts what came since the row before, in any order of rows, by place', () => {
    const places = of(
      rain('2024-03-11', 20),
      rain('2024-03-01', 99),
      rain('2024-03-21T06:00', 4),
      rain('2024-03-21T18:00', 6),
      rain('2024-03-21', 5, 'roof'),
    );
    // The first row of a place does not say over how long its rain fell.
    expect(places).toEqual([
      [
        'yard',
        [
          { after: '2024-03-01', by: '2024-03-11', amount: 20 },
          { after: '2024-03-11', by: '2024-03-21', amount: 10 },
        ],
      ],
    ]);
    // Twenty days on record bring 30 mm, so that thirty bring 45.
    expect(amountBefore(places[0]![1], '2024-03-21')).toBeCloseTo(45, 12);
    // Half of the first stretch lies further back than thirty days: 10 and 10 mm in fifteen days.
    expect(amountBefore(places[0]![1], '2024-04-05')).toBeCloseTo(40, 12);
    expect(amountBefore(places[0]![1], '2024-04-06')).toBeUndefined();
  });

  it('leaves days without a record out instead of taking them for dry', () => {
    const [place] = of(rain('2024-03-01', 0), rain('2024-03-11'), rain('2024-03-31', 30));
    expect(place![1]).toEqual([{ after: '2024-03-11', by: '2024-03-31', amount: 30 }]);
    expect(amountBefore(place![1], '2024-03-31')).toBeCloseTo(45, 12);
    expect(of(rain('2024-03-01'), rain('2024-03-11'))).toEqual([]);
  });
});

describe('adjustedAnswers(trial, curves)', () => {
  // Ten houses, one wall each. Treated ones change by 1 less; every hour of heating takes 0.01 off, and treated houses are heated more
  // in the second spring; each millimetre of rain adds 0.02.
  const visits = [30, 60, 90, 395, 425, 455];
  const draws = normalDraws(randomStream(41), 10 * 30);
  const walls = wallsWithChanges([0, 0, 0, 0, 0], [0, 0, 0, 0, 0]).map((wall) => ({
    ...wall,
    site: `house ${wall.wall}`,
  }));
  const heated = (k: number, time_d: number) =>
    150 + (time_d > 300 && k < 5 ? 150 : 0) + 30 * draws[30 * k + 10 + visits.indexOf(time_d)]!;
  const rained = (time_d: number) => 50 + 25 * Math.sin(time_d);
  const curves = walls.map(({ wall, arm }, k): WallCurve => {
    const days = visits.map(dayAt);
    const moisture = visits.map((time_d, visit) => {
      const change = time_d > 300 ? (k < 5 ? -1 : 0) + 0.2 * draws[30 * k + 1]! : 0;
      const weather = -0.01 * heated(k, time_d) + 0.02 * rained(time_d);
      return 9 + draws[30 * k + 2]! + change + weather + 0.05 * draws[30 * k + 3 + visit]!;
    });
    const side = arm === 'treated' ? ('treated' as const) : ('untreated' as const);
    return { wall, arm, side, block: '', days, times_d: visits, moisture };
  });
  // Rows at the visits, which are thirty days apart, so that a visit's thirty days hold one amount.
  const climate = visits.flatMap((time_d): ClimateReading[] => [
    ...walls.map(({ site }, k) => ({
      time: dayAt(time_d),
      place: site,
      heating_h: heated(k, time_d),
      origin,
    })),
    { time: dayAt(time_d), place: 'yard', rain_mm: rained(time_d), origin },
  ]);
  const starts = [0, 365].flatMap((time_d): ClimateReading[] =>
    [...walls.map(({ site }) => site), 'yard'].map((place) => ({ time: dayAt(time_d), place, origin })),
  );
  const trial = (adjustments: readonly AdjustmentName[], air: readonly ClimateReading[]) => {
    const made = madeTrial([], { protocol: { ...soundProtocol, adjustments }, climate: air });
    return { ...made, walls: walls.map(({ wall, arm, site }) => ({ wall, arm, site, origin })) };
  };
  const idsOf = (answers: readonly Answer[]) =>
    answers.map((one) => (one.kind === 'estimated' ? one.estimate.id : one.notEstimated.id));

  it('takes the heating of a wall’s own site off: a difference of 1 comes out that was 2.5', () => {
    const answers = adjustedAnswers(trial([], [...starts, ...climate]), curves);
    expect(idsOf(answers)).toEqual(['season-adjusted', 'rain-adjusted', 'heating-adjusted']);
    const [season, rain, heating] = answers.map(estimateOf);
    for (const raw of [season!, rain!]) expect(Math.abs(raw.estimate + 2.5)).toBeLessThan(0.35);
    expect(Math.abs(heating!.estimate + 1)).toBeLessThan(0.35);
    // Rain is left in the scatter of this one, and still 2.5 is excluded.
    expect(heating!.interval!.lower).toBeGreaterThan(-2.5);
  });

  it('takes all that the plan names off together, and says what of it is not on record', () => {
    const planned = adjustedAnswers(trial(['rain', 'heating'], [...starts, ...climate]), curves);
    expect(idsOf(planned)).toEqual(['season-adjusted', 'rain-adjusted', 'heating-adjusted', 'planned-adjusted']);
    const together = estimateOf(planned.at(-1));
    expect(labelOf(together)).toBe('Adjusted for rain and heating');
    expect(Math.abs(together.estimate + 1)).toBeLessThan(0.35);
    expect(together.interval!.upper - together.interval!.lower).toBeLessThan(1);
    const [, rain] = adjustedAnswers(trial(['rain'], []), curves);
    expect(rain?.kind === 'not-estimated' && rain.notEstimated.reason).toEqual({
      code: 'weather-not-recorded',
      names: ['rain'],
    });
  });
});

describe('timesToGoals(trial, curves), daysToGoalsAnswers(trial, curves, period_d)', () => {
  // Visits every 30 days; each wall falls by 3 (the margin is 2) at the visit that its number says, or never.
  const times_d = [0, 30, 60, 90, 120, 150];
  const wall = (name: string, side: 'treated' | 'untreated', fallsAt: number): WallCurve => ({
    wall: name,
    arm: side === 'treated' ? 'treated' : 'sham',
    side,
    block: '',
    days: times_d.map(dayAt),
    times_d,
    moisture: times_d.map((_, visit) => 9 - (visit >= fallsAt ? 3 : 0)),
  });
  const treated = [1, 1, 2, 2].map((at, k) => wall(`T${k}`, 'treated', at));
  const untreated = (last: number) => [3, 4, 4, last].map((at, k) => wall(`U${k}`, 'untreated', at));
  const trial = madeTrial([]);

  it('gives the ratio of days where every wall fell, from the middles between visits', () => {
    const [difference, ratio, ...more] = daysToGoalsAnswers(trial, [...treated, ...untreated(5)], 150);
    expect(more).toEqual([]);
    // Middles 15, 15, 45, 45 against 75, 105, 105, 135.
    expect(estimateOf(difference).estimate).toBeCloseTo(30 - 105, 12);
    expect(estimateOf(ratio)).toMatchObject({ id: 'days-to-fall-ratio', unit: 'ratio' });
    const expected = (15 * 15 * 45 * 45) ** (1 / 4) / (75 * 105 * 105 * 135) ** (1 / 4);
    expect(estimateOf(ratio).estimate).toBeCloseTo(expected, 12);
    expect(estimateOf(ratio).interval!.upper).toBeLessThan(1);
  });

  it('says why there is none where a wall had not, and counts the days that all curves cover', () => {
    const answers = daysToGoalsAnswers(trial, [...treated, ...untreated(9)], 150);
    const [difference, restricted, ratio] = answers;
    expect(estimateOf(difference).estimate).toBeCloseTo(30 - (75 + 105 + 105 + 150) / 4, 12);
    expect(labelOf(estimateOf(restricted))).toBe('Ratio of days until lower by the margin, of the first 150');
    const expected = (15 * 15 * 45 * 45) ** (1 / 4) / (75 * 105 * 105 * 150) ** (1 / 4);
    expect(estimateOf(restricted).estimate).toBeCloseTo(expected, 12);
    expect(ratio?.kind === 'not-estimated' && ratio.notEstimated.reason).toEqual({
      ...{ code: 'not-all-so-far', late: 1, of: 8, countedTo_d: 150 },
    });
  });

  it('does the same for the moisture that the plan calls dry, and counts a wall that is so from the start as day 0', () => {
    const dry = madeTrial([], { protocol: { ...soundProtocol, dryBelow: 6.5 } });
    const rising = { ...wall('U5', 'untreated', 1), moisture: [9, 6, 6, 9, 6, 6] };
    const dries = wall('T9', 'treated', 0);
    const curves = [...treated, ...untreated(5), rising, dries];
    const { timesToDry } = timesToGoals(dry, curves);
    expect(timesToDry).toMatchObject({ limit: 6.5, arms: [{ arm: 'treated', walls: 5, fallen: 5 }, { fallen: 5 }] });
    const [difference, ratio] = daysToGoalsAnswers(dry, curves, 150).filter((one) =>
      (one.kind === 'estimated' ? one.estimate.id : one.notEstimated.id).startsWith('days-to-dry'),
    );
    // Middles 15, 15, 45, 45 and 0 against 75, 105, 105, 135 and, wet again at day 90, 105.
    expect(estimateOf(difference)).toMatchObject({ id: 'days-to-dry', unit: 'days' });
    expect(labelOf(estimateOf(difference))).toBe('Days until at most 6.5 % by mass, of the first 150');
    expect(estimateOf(difference).estimate).toBeCloseTo((15 + 15 + 45 + 45) / 5 - (75 + 105 + 105 + 135 + 105) / 5, 12);
    expect(ratio?.kind === 'not-estimated' && ratio.notEstimated.reason).toEqual({
      code: 'ratio-needs-positive-values',
    });
    expect(timesToGoals(trial, curves).timesToDry).toBeUndefined();
    // Where no wall comes so far nothing varies, and nothing stands in for the ratio.
    const never = daysToGoalsAnswers(madeTrial([], { protocol: { ...soundProtocol, dryBelow: 1 } }), curves, 150).at(
      -1,
    );
    expect(never?.kind === 'not-estimated' && never.notEstimated.reason).toEqual({
      code: 'not-all-so-far',
      late: 10,
      of: 10,
    });
  });

  it('tells at most seven days, of more every other one, and always the last', () => {
    const fallsOn = (day: number) => ({
      ...wall('T', 'treated', 1),
      ...{ times_d: [0, day], moisture: [9, 6], days: [0, day].map(dayAt) },
    });
    const told = (last: number) => timesToGoals(trial, [fallsOn(14), fallsOn(last)]).times?.days;
    expect(told(270)).toEqual([14, 30, 60, 90, 120, 180, 270]);
    expect(told(271)).toEqual([30, 90, 180, 365]);
  });

  it('tells the course of each arm by the product limit, and between which visits half of it fell', () => {
    const short = {
      ...wall('U9', 'untreated', 9),
      times_d: [0, 30, 60],
      moisture: [9, 9, 9],
      days: [0, 30, 60].map(dayAt),
    };
    const { times } = timesToGoals(trial, [...treated, ...untreated(9), short]);
    expect(times!.days).toEqual([30, 60, 90, 120, 180]);
    const [first, second] = times!.arms;
    expect(first).toMatchObject({ arm: 'treated', walls: 4, fallen: 4, median_d: 30 });
    expect(first!.medianBetween_d).toEqual({ after: 0, by: 30 });
    expect(first!.course.slice(0, 2)).toEqual([
      { notYet: 0.5, followed: 2 },
      { notYet: 0, followed: 0 },
    ]);
    // One of five is read no longer after day 60: three quarters of the others on day 90, a quarter on day 120.
    expect(second!.course).toEqual([
      { notYet: 1, followed: 5 },
      { notYet: 1, followed: 5 },
      { notYet: 0.75, followed: 3 },
      { notYet: 0.25, followed: 1 },
      { followed: 0 },
    ]);
    expect(second!.medianBetween_d).toEqual({ after: 90, by: 120 });
  });
});

describe('wettingOfTrial(trial, readings), wettingSection(opinion)', () => {
  // Water sets out on day 10 and rises by 5 mm per root of a minute; ten plugs of six walls, read daily for 60 days.
  const draws = normalDraws(randomStream(43), 6 * 10 * 60);
  const heights = Array.from({ length: 10 }, (_, k) => 100 * (k + 1));
  const made = madeTrial(wallsWithChanges([0, 0, 0], [0, 0, 0]).map(({ wall, arm }) => ({ wall, arm })));
  const treatedOn = dayAt(60);
  const plugs: Trial = {
    ...made,
    protocol: { ...soundProtocol, instruments: [{ instrument: 'plug', kind: 'embedded-sensor' }] },
    walls: made.walls.map((wall) => ({ ...wall, treatedOn })),
    stations: made.walls.flatMap(({ wall }) =>
      heights.map((height_mm) => ({ station: `up-${height_mm}`, wall, height_mm, origin })),
    ),
  };
  const readings = (rises: (k: number) => number, last = 60): MoistureReading[] =>
    made.walls.flatMap(({ wall }, w) =>
      heights.flatMap((height_mm, k) =>
        Array.from({ length: last }, (_, day): MoistureReading => {
          const arrives = 10 + (height_mm / 5) ** 2 / 1440;
          const value = 12 + (day + 0.5 > arrives ? rises(k) : 0) + draws[600 * w + 60 * k + (day % 60)]!;
          const measured = { kind: 'measured' as const, value };
          return { day: dayAt(day), wall, station: `up-${height_mm}`, instrument: 'plug', value: measured, origin };
        }),
      ),
    );

  it('finds when the water set out and how fast it rose, up to the treatment', () => {
    // The top plug moves by little: it is no arrival. Readings after the treatment do not count.
    const wetting = wettingOfTrial(
      plugs,
      readings((k) => (k === 9 ? 15 : 60), 90),
    );
    if (wetting?.kind !== 'shown') throw new Error(wetting?.reason.code ?? 'nothing');
    expect(wetting.walls.map(({ wall }) => wall)).toEqual(made.walls.map(({ wall }) => wall));
    for (const { sensors, front } of wetting.walls) {
      expect(sensors.map(({ kind }) => kind)).toEqual([...Array(9).fill('arrived'), 'not-arrived']);
      expect(front!.interval.lower).toBeLessThan(5);
      expect(front!.interval.upper).toBeGreaterThan(5);
      expect(Math.abs(front!.start_d - 10)).toBeLessThan(0.5);
      expect(front!.sorptivity.sorptivity).toBeCloseTo(0.2 * front!.speed, 12);
    }
    const section = wettingSection({ wetting, protocol: plugs.protocol } as Opinion);
    const kinds = section!.blocks.map(({ kind }) => kind);
    expect(kinds.filter((kind) => kind === 'figure').length).toBe(4);
    // Four walls one by one with two tables each, the two further ones in a table.
    expect(kinds.filter((kind) => kind === 'table').length).toBe(9);
    expect(JSON.stringify(section)).toContain('rise by less than half of what the other sensors’ do');
  });

  it('says why no rise is shown, and nothing where there are no sensors up a wall', () => {
    const reasonOf = (of: Trial, own: readonly MoistureReading[]) => {
      const wetting = wettingOfTrial(of, own);
      return wetting?.kind === 'not-shown' ? wetting.reason : wetting;
    };
    const wet = readings(() => 0);
    expect(reasonOf(plugs, wet)).toEqual({ code: 'no-sensor-steps-up' });
    const low = { ...plugs, stations: plugs.stations.filter(({ height_mm }) => height_mm! < 300) };
    expect(reasonOf(low, wet)).toEqual({ code: 'no-sensors-at-heights', needed: 3 });
    expect(reasonOf({ ...plugs, protocol: soundProtocol }, wet)).toBeUndefined();
    expect(reasonOf(plugs, [])).toBeUndefined();
  });
});
