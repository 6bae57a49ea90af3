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
    expect(leftOut.map(({ reason, count }) => [reason, count])).toEqual([
      ['outside the before and the after window', 2],
      ['read with mw, which is not the outcome’s instrument', 1],
      ['its wall stands in no arm of the primary comparison', 1],
      ['no value recorded', 1],
      ['below the detection limit, so not a number', 1],
      ['its station has no after value', 1],
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
    expect(result.leftOut).toMatchObject([{ reason: 'the protocol states no windows', count: 2 }]);
  });
});

describe('wallChanges', () => {
  const { walls, leftOut } = wallChanges(trial, stationChanges(trial, readings).stations);

  it('averages after minus before over stations that have both, each station counting once', () => {
    // (6 − 9 + 4 − 5) / 2 = −2
    expect(walls).toEqual([
      { wall: 'A', arm: 'treated', side: 'treated', block: '', before: 7, after: 5, change: -2, stations: 2 },
    ]);
  });

  it('names the walls without a change and why', () => {
    expect(leftOut).toEqual([
      { wall: 'B', reason: 'neither a before nor an after value' },
      { wall: 'C', reason: 'its arm other is not in the primary comparison' },
    ]);
  });
});

describe('withoutWalls', () => {
  it('moves the readings of a wall without a counterpart from used to left out', () => {
    const all = stationChanges(trial, readings);
    const { used, leftOut } = withoutWalls(all, [{ wall: 'A', reason: 'alone' }]);
    expect(used).toEqual([]);
    expect(leftOut.at(-1)).toMatchObject({ reason: 'its wall has none to be compared with', count: 5 });
    expect(withoutWalls(all, [{ wall: 'B', reason: 'alone' }])).toBe(all);
  });
});
