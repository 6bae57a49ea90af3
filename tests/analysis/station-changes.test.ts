import { describe, expect, it } from 'vitest';
import { stationChanges, wallChanges, withoutWalls } from '../../src/analysis/index.js';
import type { MoistureReading } from '../../src/moisture/index.js';
import type { Recorded } from '../../src/trial/index.js';
import { madeTrial, soundProtocol } from '../helpers/made-trial.js';

const trial = madeTrial(
  [
    { wall: 'A', arm: 'treated' },
    { wall: 'B', arm: 'sham' },
    { wall: 'C', arm: 'other' },
  ],
  {
    protocol: { ...soundProtocol, compare: { treated: ['treated'], untreated: ['sham'] } },
    stations: [{ station: 'low', wall: 'A', height_mm: 300, depth_mm: 40, origin: { file: 'stations.csv', row: 2 } }],
  },
);

let row = 1;
function reading(
  day: string,
  wall: string,
  station: string,
  value: number | Recorded,
  instrument = 'core',
): MoistureReading {
  row += 1;
  return {
    day,
    wall,
    station,
    instrument,
    value: typeof value === 'number' ? { kind: 'measured', value } : value,
    origin: { file: 'readings.csv', row },
  };
}

const readings = [
  // Low: before 8 and 10, after 6. High: before 5, after 4. Top: only before.
  reading('2024-03-01', 'A', 'low', 8),
  reading('2024-05-31', 'A', 'low', 10),
  reading('2025-04-01', 'A', 'low', 6),
  reading('2024-04-01', 'A', 'high', 5),
  reading('2025-04-01', 'A', 'high', 4),
  reading('2024-04-01', 'A', 'top', 2),
  // A day outside either end of the windows, another instrument, an arm outside the comparison, no number.
  reading('2024-06-01', 'A', 'low', 99),
  reading('2024-02-29', 'A', 'low', 99),
  reading('2024-04-01', 'A', 'low', 99, 'mw'),
  reading('2024-04-01', 'C', 'low', 99),
  reading('2024-04-02', 'A', 'low', { kind: 'missing' }),
  reading('2024-04-02', 'A', 'low', { kind: 'below-detection', limit: 0.5 }),
];

describe('stationChanges', () => {
  const { stations, used, leftOut } = stationChanges(trial, readings);

  it('averages a station inside each window, both ends of the window included', () => {
    expect(stations).toEqual([
      { wall: 'A', station: 'low', height_mm: 300, depth_mm: 40, before: 9, after: 6 },
      { wall: 'A', station: 'high', before: 5, after: 4 },
      { wall: 'A', station: 'top', before: 2 },
    ]);
  });

  it('counts every reading once, as used or left out with a reason and its row', () => {
    expect(used).toHaveLength(5);
    expect(leftOut.map(({ reason, count }) => [reason.code, count])).toEqual([
      ['outside', 2],
      ['other-instrument', 1],
      ['other-arm', 1],
      ['no-value', 1],
      ['below-detection', 1],
      ['station-without-after', 1],
    ]);
    const rows = [
      ...used.map(({ origin }) => origin.row),
      ...leftOut.flatMap(({ origins }) => origins.map(({ row }) => row)),
    ];
    expect(rows.sort((one, other) => one - other)).toEqual(readings.map(({ origin }) => origin.row));
  });

  it('leaves every reading out where the protocol states no windows', () => {
    const { windows: _, ...protocol } = trial.protocol;
    const result = stationChanges({ ...trial, protocol }, readings.slice(0, 2));
    expect(result.stations).toEqual([]);
    expect(result.leftOut).toMatchObject([{ reason: { code: 'no-windows' }, count: 2 }]);
  });
});

describe('wallChanges', () => {
  const { walls, leftOut } = wallChanges(trial, stationChanges(trial, readings).stations);

  it('averages after minus before over stations that have both, each station counting once', () => {
    // (6 − 9 + 4 − 5) / 2 = −2
    expect(walls).toEqual([
      {
        wall: 'A',
        arm: 'treated',
        side: 'treated',
        block: '',
        before: 7,
        after: 5,
        change: -2,
        stations: 2,
        places: 'same',
      },
    ]);
  });

  it('names the walls without a change and why', () => {
    expect(leftOut).toEqual([
      { wall: 'B', reason: { code: 'no-before-or-after' } },
      { wall: 'C', reason: { code: 'other-arm', arm: 'other' } },
    ]);
  });
});

describe('withoutWalls', () => {
  it('moves the readings of a wall without a counterpart from used to left out', () => {
    const all = stationChanges(trial, readings);
    const { used, leftOut } = withoutWalls(all, [{ wall: 'A', reason: { code: 'alone-in-block', block: '' } }]);
    expect(used).toEqual([]);
    expect(leftOut.at(-1)).toMatchObject({ reason: { code: 'wall-without-partner' }, count: 5 });
    expect(withoutWalls(all, [{ wall: 'B', reason: { code: 'alone-in-block', block: '' } }])).toBe(all);
  });
});

describe('a wall’s own day of treatment', () => {
  const treatedOn = (day: string) => ({ ...trial, walls: trial.walls.map((wall) => ({ ...wall, treatedOn: day })) });

  it('keeps later readings of the before window out of the before value, and counts them by a reason of their own', () => {
    const { stations, leftOut } = stationChanges(treatedOn('2024-05-31'), readings);
    // Only the reading of 1 March is left: the one of 31 May was taken on the day of the treatment.
    expect(stations[0]).toMatchObject({ station: 'low', before: 8, after: 6 });
    expect(leftOut.find(({ reason }) => reason.code === 'treated-by-then')).toMatchObject({ count: 1 });
    const next = stationChanges(treatedOn('2024-06-01'), readings);
    expect(next.stations[0]).toMatchObject({ before: 9 });
    expect(next.leftOut.map(({ reason }) => reason.code)).not.toContain('treated-by-then');
  });

  it('keeps earlier readings of the after window out of the after value', () => {
    const late = treatedOn('2025-04-02');
    const { stations, leftOut } = stationChanges(late, readings);
    expect(stations[0]).toEqual({ wall: 'A', station: 'low', height_mm: 300, depth_mm: 40, before: 9 });
    expect(leftOut.find(({ reason }) => reason.code === 'not-yet-treated')).toMatchObject({ count: 2 });
    expect(stationChanges(treatedOn('2025-04-01'), readings).stations[0]).toMatchObject({ after: 6 });
  });

  it('sorts by the windows of the wall where it has its own', () => {
    const windows = {
      before: { from: '2024-06-01', to: '2024-06-30' },
      after: { from: '2025-04-01', to: '2025-04-30' },
    };
    const own = { ...trial, walls: trial.walls.map((wall) => (wall.wall === 'A' ? { ...wall, windows } : wall)) };
    expect(stationChanges(own, readings).stations[0]).toMatchObject({ station: 'low', before: 99, after: 6 });
  });
});

describe('places named anew', () => {
  const anew = [
    reading('2024-04-01', 'A', 'old 1', 8),
    reading('2024-04-01', 'A', 'old 2', 6),
    reading('2025-04-01', 'A', 'new 1', 4),
    reading('2025-04-01', 'A', 'new 2', 5),
    reading('2025-04-01', 'A', 'new 3', 6),
  ];

  it('are compared by the wall’s means: (4 + 5 + 6) / 3 − (8 + 6) / 2 = −2, and the wall says so', () => {
    const changes = stationChanges(trial, anew);
    expect(wallChanges(trial, changes.stations).walls).toEqual([
      {
        ...{ wall: 'A', arm: 'treated', side: 'treated', block: '', before: 7, after: 5, change: -2 },
        ...{ stations: 5, places: 'renamed' },
      },
    ]);
    expect(changes.used).toHaveLength(5);
    expect(changes.leftOut).toEqual([]);
  });

  it('are left aside as soon as one station has both', () => {
    const changes = stationChanges(trial, [...anew, reading('2024-04-01', 'A', 'new 2', 9)]);
    expect(wallChanges(trial, changes.stations).walls).toMatchObject([{ change: -4, stations: 1, places: 'same' }]);
    expect(changes.leftOut.reduce((sum, { count }) => sum + count, 0)).toBe(4);
  });

  it('do not save a wall without readings in both windows', () => {
    const { walls, leftOut } = wallChanges(trial, stationChanges(trial, anew.slice(0, 2)).stations);
    expect(walls).toEqual([]);
    expect(leftOut[0]).toEqual({ wall: 'A', reason: { code: 'no-after' } });
  });
});
