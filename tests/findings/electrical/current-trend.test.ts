import { describe, expect, it } from 'vitest';
import { currentTrend } from '../../../src/findings/electrical/current-trend.js';
import { currentsByDay } from '../../../src/findings/electrical/currents-by-day.js';
import { electricalOfTrial } from '../../../src/findings/electrical/electrical-of-trial.js';
import { meansByArm, meansOfSide } from '../../../src/findings/electrical/means-of-arm.js';
import { studentT } from '../../../src/statistics/index.js';
import type { ElectricalRecord, Trial } from '../../../src/trial/index.js';
import { withElectrodes } from '../../helpers/electrical-trial.js';
import { madeTrial, wallsWithChanges } from '../../helpers/made-trial.js';

const made = madeTrial(wallsWithChanges([-4, -3.8, -4.2], [0, 0.2]));
const sides = new Map(made.walls.map(({ wall }) => [wall, wall.startsWith('T') ? 'treated' : 'untreated'] as const));
const numberOf = (wall: string) => Number(wall.slice(1));

/** Readings on four days, and off on the last: a straight line by `per30Days` of 0.04 A, which is its mean over days 0 to 90. */
const falling = (per30Days: (wall: string) => number, days: readonly number[] = [0, 30, 60, 90, 91]) =>
  withElectrodes(made, {
    days,
    current: (wall, day) => 0.04 * (1 + (per30Days(wall) * (day - 45)) / 30),
  });

describe('currentTrend', () => {
  it('is the mean slope of the treated walls with Student’s interval over walls, by hand', () => {
    // Slopes of −0.1, −0.2 and −0.3: a mean of −0.2 with a standard error of 0.1 / √3.
    const found = currentTrend(
      falling((wall) => (wall.startsWith('T') ? -0.1 * numberOf(wall) : 0.6)),
      sides,
    );
    expect(found?.walls).toBe(3);
    expect(found?.trendPer30Days).toBeCloseTo(-0.2, 12);
    const half = (studentT(2).quantile(0.975) * 0.1) / Math.sqrt(3);
    expect(found?.interval?.lower).toBeCloseTo(-0.2 - half, 9);
    expect(found?.interval?.upper).toBeCloseTo(-0.2 + half, 9);
    expect(found?.pValue).toBeCloseTo(2 * studentT(2).upperTail(0.2 / (0.1 / Math.sqrt(3))), 9);
  });

  it('follows a current down to nothing, and takes it regardless of its direction', () => {
    const toNothing = falling(() => -2 / 3);
    expect(Math.min(...(toNothing.electrical ?? []).map(({ current_a = 1 }) => current_a))).toBeCloseTo(0, 12);
    expect(currentTrend(toNothing, sides)?.trendPer30Days).toBeCloseTo(-2 / 3, 9);
    const turned: Trial = {
      ...toNothing,
      electrical: (toNothing.electrical ?? []).map((row) =>
        row.current_a === undefined ? row : { ...row, current_a: -row.current_a },
      ),
    };
    expect(currentTrend(turned, sides)?.trendPer30Days).toBeCloseTo(-2 / 3, 9);
  });

  it('counts a wall once, whatever its circuits', () => {
    const of = (electrode: string, perDay: number): ElectricalRecord[] =>
      (falling(() => perDay).electrical ?? [])
        .filter(({ wall }) => wall === 'T1')
        .map((row) => ({ ...row, electrode }));
    const found = currentTrend({ ...made, electrical: [...of('anode 1', -0.1), ...of('anode 2', -0.3)] }, sides);
    expect(found?.walls).toBe(1);
    expect(found?.trendPer30Days).toBeCloseTo(-0.2, 12);
    expect(found !== undefined && 'interval' in found).toBe(false);
  });

  it('needs four readings, and a current; without the file it is absent', () => {
    expect(
      currentTrend(
        falling(() => -0.1, [0, 30, 60, 91]),
        sides,
      ),
    ).toBeUndefined();
    expect(
      currentTrend(
        falling(() => -0.1),
        sides,
      ),
    ).toBeDefined();
    expect(currentTrend(withElectrodes(made, { current: () => 0 }), sides)).toBeUndefined();
    expect(currentTrend(made, sides)).toBeUndefined();
  });

  it('has no interval where all walls are alike', () => {
    const found = currentTrend(withElectrodes(made), sides);
    expect(found?.trendPer30Days).toBeCloseTo(0, 12);
    expect(Object.values(found ?? {}).every((value) => typeof value !== 'number' || Number.isFinite(value))).toBe(true);
  });
});

describe('meansByArm', () => {
  const trial = withElectrodes(made, {
    days: [0, 30, 60],
    current: (wall, day) => (wall.startsWith('T') ? 0.01 * numberOf(wall) * (day === 0 ? 1 : 0.5) : 0),
    polarity: () => 'anode-in-wall',
  });
  const walls = electricalOfTrial(trial, sides) ?? [];

  it('are means over walls, by hand; what an arm lacks is absent', () => {
    const [treated, sham] = meansByArm(walls.toReversed());
    expect([treated?.arm, treated?.side, treated?.walls]).toEqual(['treated', 'treated', 3]);
    // 0.75 of the first current over 30 days, then half of it: 37.5 days at 10, 20 and 30 mA.
    expect(treated?.charge_c).toBeCloseTo(37.5 * 86_400 * 0.02, 6);
    expect(treated?.current_a).toBeCloseTo(0.0125, 12);
    // The first 30 days hold both readings: their mean is 0.75 of the first.
    expect(treated?.currentKept).toBeCloseTo(0.625 / 0.75, 12);
    expect(treated?.onShare).toBeCloseTo(60 / 356, 9);
    expect(treated?.reversedShare).toBe(0);
    expect(sham).toMatchObject({ arm: 'sham', side: 'untreated', walls: 2, charge_c: 0 });
    expect('currentKept' in (sham ?? {})).toBe(false);
  });

  it('of a side are those of its walls, and absent where it has none', () => {
    const { arm: _, side: __, ...means } = meansByArm(walls)[0] ?? {};
    expect(meansOfSide(walls, 'treated')).toEqual(means);
    expect(meansOfSide([], 'treated')).toBeUndefined();
  });
});

describe('currentsByDay', () => {
  it('has the mean of a day, in runs that an interruption parts', () => {
    const row = (time: string, current_a?: number): ElectricalRecord => ({
      ...{ time, wall: 'T1', origin: { file: 'electrical.csv', row: 2 } },
      ...(current_a === undefined ? { state: 'off' } : { state: 'on', current_a }),
    });
    const electrical = [
      row('2024-07-02T08:00', -0.2),
      row('2024-07-01T08:00', 0.1),
      row('2024-07-01T20:00', 0.3),
      row('2024-07-03'),
      row('2024-07-04', 0.1),
    ];
    const [first, ...others] = currentsByDay({ ...made, electrical });
    expect(others).toEqual([]);
    expect(first?.wall).toBe('T1');
    expect(first?.runs.map((run) => run.map(({ day }) => day))).toEqual([['2024-07-01', '2024-07-02'], ['2024-07-04']]);
    expect(first?.runs.flat().map(({ current_a }) => current_a)).toEqual([0.2, 0.2, 0.1]);
    expect(currentsByDay({ ...made, electrical: [row('2024-07-03')] })).toEqual([]);
    expect(currentsByDay(made)).toEqual([]);
  });
});
