import { describe, expect, it } from 'vitest';
import { countsByHeight, countsByWall } from '../../src/checking/reading-counts.js';
import { dotsInText } from '../../src/checking/report/dots-in-text.js';
import { fewestWallsForChanges } from '../../src/checking/spreads.js';
import { trialOverview } from '../../src/checking/trial-overview.js';
import { visitsOf } from '../../src/findings/visits.js';
import type { MoistureReading } from '../../src/moisture/index.js';
import type { Trial } from '../../src/trial/index.js';
import { madeTrial } from '../helpers/made-trial.js';

const origin = { file: 'readings.csv', row: 2 };

function reading(day: string, wall: string, station = '', value = 5): MoistureReading {
  return { day, wall, station, instrument: 'core', value: { kind: 'measured', value }, origin };
}

describe('counts', () => {
  const trial = madeTrial(
    [
      { wall: 'a', arm: 'treated' },
      { wall: 'b', arm: 'sham' },
    ],
    {
      stations: [
        { station: 'low', wall: 'a', height_mm: 200, origin },
        { station: 'high', wall: 'a', height_mm: 900, origin },
        { station: 'low', wall: 'b', height_mm: 200, origin },
      ],
    },
  );
  const visits = visitsOf([
    reading('2024-03-01', 'a', 'low'),
    reading('2024-03-01', 'a', 'low'),
    reading('2024-03-01', 'a', 'high'),
    reading('2024-05-01', 'a', 'low'),
    reading('2024-05-01', 'b', 'low'),
  ]);

  it('countsByWall counts places, each once a visit', () => {
    expect(countsByWall(trial, visits)).toEqual([
      { label: 'a', most: 2, counts: [2, 1] },
      { label: 'b', most: 1, counts: [0, 1] },
    ]);
  });

  it('countsByHeight counts walls, from the highest place', () => {
    expect(countsByHeight(trial, visits)).toEqual([
      { label: '900 mm', most: 1, counts: [1, 0] },
      { label: '200 mm', most: 2, counts: [1, 2] },
    ]);
  });

  it('dotsInText tells all, some and none apart, and breaks many visits into parts', () => {
    expect(dotsInText([{ label: 'W1', most: 2, counts: [2, 1, 0] }])).toBe('    1\nW1  ● ◐ ·');
    const many = dotsInText([{ label: 'W1', most: 1, counts: Array(40).fill(1) }]);
    expect(many.match(/●/g)).toHaveLength(40);
    expect(many.split('\n\n')).toHaveLength(2);
  });
});

describe('spreads', () => {
  const walls = (count: number, change: (index: number) => number) =>
    Array.from({ length: count }, (_, index) => {
      const before = 8 + index;
      return { wall: `w${index}`, arm: index % 2 === 0 ? 'treated' : 'sham', before, after: before + change(index) };
    });
  const spread = (trial: Trial, id: string) => trialOverview(trial).spreads.find((one) => one.id === id);

  it('are those of all walls together, by hand: 8, 9, 10, 11 have a variance of 5/3', () => {
    const found = spread(madeTrial(walls(4, () => -1)), 'walls-before');
    expect(found?.standardDeviation).toBeCloseTo(Math.sqrt(5 / 3), 12);
    expect(found?.degreesOfFreedom).toBe(3);
  });

  it('withhold that of changes where it would tell the size of a difference', () => {
    const changes = (count: number) =>
      spread(madeTrial(walls(count, (index) => (index % 2 === 0 ? -2 : 0))), 'changes');
    expect(changes(fewestWallsForChanges - 1)).toBeUndefined();
    // Changes of −2 and 0, three of each: their variance is 6/5.
    expect(changes(fewestWallsForChanges)?.standardDeviation).toBeCloseTo(Math.sqrt(6 / 5), 12);
  });
});

describe('what a trial can answer', () => {
  const pair = [
    { wall: 'a', arm: 'treated', before: 9, after: 6 },
    { wall: 'b', arm: 'sham', before: 9, after: 8.5 },
  ];
  const four = [
    ...pair,
    { wall: 'c', arm: 'treated', before: 8, after: 6 },
    { wall: 'd', arm: 'sham', before: 8, after: 7 },
  ];
  const can = (trial: Trial, id: string) => trialOverview(trial).abilities.find((one) => one.id === id)?.can;

  it('of the difference: from two walls an arm on, once both windows were read', () => {
    expect(can(madeTrial(four), 'difference')).toBe('yes');
    expect(can(madeTrial(pair), 'difference')).toBe('not-yet');
    expect(can(madeTrial(four.map(({ after: _, ...wall }) => wall)), 'difference')).toBe('not-yet');
    expect(can(madeTrial(four.filter(({ arm }) => arm === 'treated')), 'difference')).toBe('no');
    const { windows: _, ...protocol } = madeTrial(four).protocol;
    expect(can(madeTrial(four, { protocol }), 'difference')).toBe('no');
  });

  it('of chance: two walls an arm give p = 1/3 at least, four 1/35', () => {
    expect(can(madeTrial(four), 'chance')).toBe('no');
    const eight = [...four, ...four.map((wall) => ({ ...wall, wall: `${wall.wall}2` }))];
    expect(can(madeTrial(eight), 'chance')).toBe('yes');
  });

  it('of the price: with a margin', () => {
    expect(can(madeTrial(four), 'worthwhile')).toBe('yes');
    const { margin: _, ...protocol } = madeTrial(four).protocol;
    expect(can(madeTrial(four, { protocol }), 'worthwhile')).toBe('no');
  });

  it('of a meter: three pairs of core and reading, and what names would have given', () => {
    const places = ['a', 'b', 'c', 'd'];
    const meter = (station: string, read: readonly string[]) =>
      read.map((wall) => ({
        ...{ date: '2024-04-10', wall, station, instrument: 'mw', origin },
        value: { kind: 'measured' as const, value: 40 },
      }));
    const made = (station: string, read = places) => {
      const trial = madeTrial(four);
      return { ...trial, readings: [...trial.readings, ...meter(station, read)] };
    };
    expect(can(made(''), 'calibration')).toBe('yes');
    expect(can(made('', ['a', 'b']), 'calibration')).toBe('not-yet');
    const renamed = trialOverview(made('other')).abilities.find((one) => one.id === 'calibration');
    expect(renamed).toMatchObject({ can: 'not-yet', check: { pairs: 0, pairsByWall: 4 } });
  });
});

describe('what is missing', () => {
  const walls = ['a', 'b', 'c', 'd'].map((wall, index) => ({
    ...{ wall, arm: index % 2 === 0 ? 'treated' : 'sham', before: 9 + index, after: 8 + index },
  }));
  const sound = madeTrial(walls);

  it('is nothing of a trial that states the core list', () => {
    expect(trialOverview(sound).statements.map(({ kind }) => kind)).toEqual(Array(8).fill('stated'));
    expect(trialOverview(sound).evidenceAtBest).toBe('firm');
  });

  it('is what was taken away, and no more', () => {
    const { plannedOn: _, ...protocol } = sound.protocol;
    const { statements, evidenceAtBest } = trialOverview({ ...sound, protocol });
    expect(statements.filter(({ kind }) => kind !== 'stated').map(({ item }) => item)).toEqual(['plan-day']);
    expect(evidenceAtBest).toBe('fair');
  });
});
