import { describe, expect, it } from 'vitest';
import type { Side } from '../../../src/analysis/index.js';
import { laboratoryOfTrial } from '../../../src/findings/laboratory/laboratory-of-trial.js';
import { isReadFromTrays, lastVisits, restOfTrays } from '../../../src/findings/laboratory/rest-of-trays.js';
import { specimensDrying } from '../../../src/findings/laboratory/specimens-drying.js';
import { addDays } from '../../../src/plain/days.js';
import { normalDraws, randomStream } from '../../../src/statistics/index.js';
import type { TrayRecord, Trial } from '../../../src/trial/index.js';
import { expectRelative } from '../../helpers/expect-relative.js';
import { madeTrial, wallsWithChanges } from '../../helpers/made-trial.js';
import { trayTrial } from '../../helpers/tray-trial.js';

const sidesOf = ({ walls }: Trial): ReadonlyMap<string, Side> =>
  new Map(walls.map(({ wall, arm }) => [wall, arm === 'treated' ? 'treated' : 'untreated']));
const restOf = (trial: Trial) => {
  const rest = restOfTrays(trial, sidesOf(trial));
  if (rest?.kind !== 'told') throw new Error(rest?.reason ?? 'not read from trays');
  return rest;
};

describe('restOfTrays(trial, sides)', () => {
  it('is the mean over walls of the relative change in 30 days, over the last four visits (by hand)', () => {
    expect(lastVisits).toBe(4);
    // From 100 ml a day at the mean of the last four visits, which are ten days apart, up by 0.2 a day: 6 % in 30 days.
    const rest = restOf(trayTrial((day) => 100 + 0.2 * day));
    expect(rest.walls).toBe(6);
    expectRelative(rest.trendPer30Days, 0.06, 0.03);
    // What went on before the last four visits does not count.
    expect(restOf(trayTrial((day) => (day < -20 ? 500 : 100 + 0.2 * day))).trendPer30Days).toBe(rest.trendPer30Days);
  });

  it('is not told with three visits, and does not apply where trays are not the outcome', () => {
    const trial = trayTrial(() => 100);
    const days = [...new Set(trial.readings.map(({ date }) => date))].sort().slice(0, 3);
    const short = {
      ...trial,
      readings: trial.readings.filter(({ date }) => date > '2024-06-10' || days.includes(date)),
    };
    expect(restOfTrays(short, sidesOf(short))).toEqual({ kind: 'not-told', reason: 'too-few-visits' });
    const made = madeTrial(wallsWithChanges([0, 0], [0, 0]));
    expect(isReadFromTrays(made)).toBe(false);
    expect(restOfTrays(made, sidesOf(made))).toBeUndefined();
  });
});

describe('specimensDrying(trial): 60 g a day for 16 days, then 400 g per root of a day', () => {
  const lost = (days: number) => (days <= 16 ? 60 * days : 960 + 400 * (Math.sqrt(days) - 4));
  const draws = normalDraws(randomStream(71), 60);
  const dayAt = (day: number) => addDays('2025-09-22', day);
  const weighed = (weighings: number, massAt: (day: number) => number, level_mm = 0): readonly TrayRecord[] =>
    Array.from({ length: weighings }, (_, k) => ({
      ...{ date: dayAt(3 * k), wall: 'T1', mass_kg: (massAt(3 * k) + 3 * draws[k]!) / 1000, level_mm },
      origin: { file: 'trays.csv', row: 2 + k },
    }));
  const of = (trays: readonly TrayRecord[]) => specimensDrying({ ...madeTrial(wallsWithChanges([0], [0])), trays });

  it('finds both rates and the break', () => {
    const [specimen, ...more] = of(weighed(20, (day) => 60_000 - lost(day)));
    expect(more).toEqual([]);
    expect(specimen).toMatchObject({ wall: 'T1', arm: 'treated', emptiedOn: '2025-09-22', weighings: 20 });
    const { stages } = specimen!;
    expectRelative(stages?.first_g_d, 60, 0.02);
    expectRelative(stages?.second_g_d05, 400, 0.02);
    expect(stages!.firstInterval.lower).toBeLessThan(60);
    expect(stages!.firstInterval.upper).toBeGreaterThan(60);
    expect(stages!.changeInterval.lower).toBeLessThan(16);
    expect(stages!.changeInterval.upper).toBeGreaterThan(16);
  });

  it('shows no stages where it takes up water, and nothing with five weighings or a full tray', () => {
    expect(of(weighed(20, (day) => 60_000 + lost(day)))[0]?.stages).toBeUndefined();
    expect(of(weighed(6, (day) => 60_000 - lost(day)))).toHaveLength(1);
    expect(of(weighed(5, (day) => 60_000 - lost(day)))).toEqual([]);
    expect(of(weighed(20, (day) => 60_000 - lost(day), 1))).toEqual([]);
  });
});

describe('laboratoryOfTrial(trial, sides)', () => {
  it('tells the uptake by square metre of face: 100 ml a day on 0.5 m² is 0.1996 kg/m² (by hand), nothing where an area is missing', () => {
    const trial = trayTrial(() => 100);
    const origin = { file: 'trays.csv', row: 2 };
    const trays = trial.walls.map(({ wall }) => ({ date: '2024-05-10', wall, level_mm: 30, origin }));
    const withAreas = (area_m2: number | undefined): Trial => ({
      ...trial,
      trays,
      walls: trial.walls.map((wall, at) => ({
        ...wall,
        ...(at === 0 && area_m2 === undefined ? {} : { area_m2: area_m2 ?? 0.5 }),
      })),
    });
    const whole = laboratoryOfTrial(withAreas(0.5), sidesOf(trial));
    for (const { side, before, after } of whole?.arms ?? []) {
      expect(before.uptake_kg_m2_d).toBeCloseTo(0.1996, 3);
      expect(after.uptake_kg_m2_d).toBeCloseTo(side === 'treated' ? 0.1198 : 0.1996, 2);
    }
    const [treated, untreated] = laboratoryOfTrial(withAreas(undefined), sidesOf(trial))?.arms ?? [];
    expect(treated?.before).not.toHaveProperty('uptake_kg_m2_d');
    expect(untreated?.before.uptake_kg_m2_d).toBeCloseTo(0.1996, 3);
  });

  it('tells water, level and means of both windows by arm, treated ones first', () => {
    const origin = { file: 'trays.csv', row: 2 };
    const trays: readonly TrayRecord[] = [
      { date: '2024-04-10', wall: 'U1', refill_ml: 700, level_mm: 30, water: 'tap', origin },
      { date: '2025-04-10', wall: 'U1', refill_ml: 720, level_mm: 34, water: 'salt', mass_kg: 60, origin },
      { date: '2024-08-10', wall: 'U1', refill_ml: 9, level_mm: 99, origin },
      { date: '2024-04-10', wall: 'T1', refill_ml: 500, origin },
      { date: '2024-04-17', wall: 'T1', refill_ml: 600, origin },
    ];
    const trial = { ...madeTrial(wallsWithChanges([0], [0])), trays };
    const facts = laboratoryOfTrial(trial, sidesOf(trial));
    expect(facts?.arms).toEqual([
      { arm: 'treated', side: 'treated', walls: 1, waters: [], before: { refill_ml: 550 }, after: {} },
      {
        ...{ arm: 'sham', side: 'untreated', walls: 1, waters: ['salt', 'tap'], level_mm: { least: 30, most: 34 } },
        ...{ before: { refill_ml: 700 }, after: { refill_ml: 720, mass_kg: 60 } },
      },
    ]);
    expect(facts?.rest).toBeUndefined();
    const { trays: _, ...none } = trial;
    expect(laboratoryOfTrial(none, sidesOf(none))).toBeUndefined();
  });
});
