import { describe, expect, it } from 'vitest';
import { spreadTooSmall } from '../../../src/analysis/index.js';
import { normalDraws, oneWayAnalysis, randomStream } from '../../../src/statistics/index.js';
import { protocol as weighed } from '../../helpers/core-trial.js';
import { analysed, type MadeReading, stationTrial } from '../../helpers/station-trial.js';
import { ofSweep } from '../../helpers/sweep.js';

const heights = [200, 500, 800, 1100];

/** Walls that differ by `walls`, stations about them by `stations`, both normal, from a seed. */
function made(seed: number, spreads: (reading: MadeReading) => { walls: number; stations: number }, each = 6) {
  const draws = normalDraws(randomStream(seed), 2 * each * 2 * (1 + 2 * heights.length));
  let at = 0;
  const next = () => draws[at++] ?? 0;
  const levels = Array.from({ length: 2 * each }, next);
  return stationTrial({
    walls: each,
    heights,
    visits: 1,
    value: (reading) => {
      const { walls, stations } = spreads(reading);
      return 12 - 2 * reading.place + walls * (levels[reading.wall] ?? 0) + stations * next();
    },
  });
}

const judged = (trial: ReturnType<typeof made>) => spreadTooSmall(trial, analysed(trial).readings);
const usual = { walls: 1.5, stations: 0.8 };

describe('spreadTooSmall', () => {
  it('walls against stations: one arm and two places, worked by hand; heights do not count as scatter', () => {
    const table = [
      [10, 4],
      [11, 5.4],
      [12, 6.2],
    ];
    const trial = stationTrial({
      walls: 3,
      heights: [200, 900],
      visits: 1,
      value: ({ wall, place, isTreated, window }) =>
        isTreated ? (table[wall / 2]?.[place] ?? 0) + (window === 'after' ? 0.3 * ((wall + place) % 3) : 0) : undefined,
    });
    const [before] = judged(trial).walls;
    // Wall means 7, 8.2, 9.1 and place means 11, 5.2: squares 2 · 2.22 between walls, and 0.04 left over, on 2 degrees of freedom each.
    expect(before?.degreesOfFreedom).toEqual([2, 2]);
    expect(before?.ratio).toBeCloseTo(4.44 / 0.04, 8);
    // With 2 and 2 degrees of freedom the lower tail of F is F / (1 + F).
    expect(before?.pValue).toBeCloseTo(111 / 112, 10);
  });

  it('residual squares agree with a one-way analysis of the values less their place means', () => {
    const trial = made(4, () => usual);
    const { readings } = analysed(trial);
    const [before] = judged(trial).walls;
    const groups = (side: string) =>
      trial.walls
        .filter(({ arm }) => arm === side)
        .map(({ wall }) =>
          readings
            .filter((one) => one.wall === wall && one.day < '2025')
            .map(({ value }) => (value.kind === 'measured' ? value.value : 0)),
        );
    const squares = ['treated', 'sham'].map((side) => {
      const own = groups(side);
      const means = heights.map((_, place) => own.reduce((sum, wall) => sum + (wall[place] ?? 0), 0) / own.length);
      const { between, within } = oneWayAnalysis(
        own.map((wall) => wall.map((value, place) => value - (means[place] ?? 0))),
      );
      return { between: between.sumOfSquares, within: within.sumOfSquares };
    });
    const sum = (of: 'between' | 'within') => squares.reduce((total, one) => total + one[of], 0);
    expect(before?.ratio).toBeCloseTo(sum('between') / 10 / (sum('within') / 30), 10);
  });

  it('an arm whose wall means are all but equal while stations scatter is found, in at least 95 of 100 seeded trials', () => {
    let alarms = 0;
    for (let seed = 0; seed < 100; seed++) {
      const trial = made(seed, () => ({ walls: 0, stations: 0.8 }), 8);
      // Somebody moves every wall to a mean of 9 and a little.
      const readings = trial.walls.flatMap(({ wall }, at) => {
        const own = trial.readings.filter((one) => one.wall === wall);
        return ['2024', '2025'].flatMap((year) => {
          const visit = own.filter(({ date }) => date.startsWith(year));
          const numberOf = (one: (typeof own)[number]) => (one.value.kind === 'measured' ? one.value.value : 0);
          const shift = 9 + 0.02 * (at % 3) - visit.reduce((sum, one) => sum + numberOf(one), 0) / visit.length;
          return visit.map((one) => ({ ...one, value: { kind: 'measured' as const, value: numberOf(one) + shift } }));
        });
      });
      const found = judged({ ...trial, readings });
      if (found.isAlarm && found.walls[0]!.pValue < 0.001) alarms++;
    }
    expect(alarms).toBeGreaterThanOrEqual(95);
  });

  it('an arm in which stations scatter a fifth as much as in the other is found, in at least 90 of 100 seeded trials', () => {
    let alarms = 0;
    for (let seed = 0; seed < 100; seed++)
      if (judged(made(seed, ({ isTreated }) => ({ walls: 1.5, stations: isTreated ? 0.16 : 0.8 }), 8)).isAlarm)
        alarms++;
    expect(alarms).toBeGreaterThanOrEqual(90);
  });

  it('cores that agree better than the balance can weigh are found; with ten times that scatter they are not', () => {
    const cores = (scatter: number) => {
      const draws = normalDraws(randomStream(3), 200);
      const trial = stationTrial({ walls: 4, heights, visits: 1, value: () => 1 });
      return {
        ...trial,
        protocol: {
          ...weighed,
          instruments: [{ instrument: 'core', kind: 'gravimetric' as const, resolution_g: 0.1 }],
        },
        readings: [],
        cores: trial.readings.map(({ date, wall, station, origin }, at) => {
          const dry_g = 40 + (at % 7);
          return {
            date,
            wall,
            station,
            origin,
            container_g: 0,
            dry_g,
            wet_g: dry_g * (1.1 + scatter * (draws[at] ?? 0)),
          };
        }),
      };
    };
    const found = judged(cores(0.00002));
    expect(found.isAlarm).toBe(true);
    expect(found.balance[0]?.pValue).toBeLessThan(1e-6);
    const sound = judged(cores(0.01));
    expect(sound.balance[0]?.pValue).toBeGreaterThan(0.5);
    expect(sound.isAlarm).toBe(false);
  });

  const trials = ofSweep(500, 200);
  it(`sound trials, walls that do not differ at all among them: an alarm in at most 1 % of ${trials} seeded trials`, () => {
    let alarms = 0;
    for (let seed = 0; seed < trials; seed++)
      if (judged(made(1000 + seed, () => (seed % 2 === 0 ? usual : { walls: 0, stations: 0.8 }))).isAlarm) alarms++;
    expect(alarms).toBeLessThanOrEqual(trials / 100);
  });

  it('one wild wall of twelve is no spread too small: an alarm in at most 1 % of 200 seeded trials', () => {
    let alarms = 0;
    for (let seed = 0; seed < 200; seed++)
      if (judged(made(3000 + seed, ({ wall }) => (wall === 0 ? { walls: 15, stations: 0.8 } : usual), 8)).isAlarm)
        alarms++;
    expect(alarms).toBeLessThanOrEqual(2);
  });

  it('tells nothing without windows, with one wall an arm, or with one station a wall but the arms', () => {
    const trial = made(1, () => usual);
    const { windows: _, ...protocol } = trial.protocol;
    const empty = { walls: [], arms: [], balance: [], pValue: 1, isAlarm: false };
    expect(spreadTooSmall({ ...trial, protocol }, analysed(trial).readings)).toEqual(empty);
    expect(judged(made(1, () => usual, 1))).toEqual(empty);
    const bare = stationTrial({ heights: [200], value: ({ wall, visit }) => 8 + ((wall * 5) % 7) + visit });
    expect(judged(bare)).toMatchObject({ walls: [], balance: [], arms: [{ of: 'walls' }] });
  });
});
