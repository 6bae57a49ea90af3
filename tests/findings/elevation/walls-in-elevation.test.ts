import { describe, expect, it } from 'vitest';
import type { StationChange, WallChange } from '../../../src/analysis/index.js';
import { wallsInElevation } from '../../../src/findings/elevation/walls-in-elevation.js';
import type { Station } from '../../../src/trial/index.js';
import { soundProtocol } from '../../helpers/made-trial.js';

const origin = { file: 'stations.csv', row: 2 };

interface Place {
  readonly position_mm?: number;
  readonly height_mm: number;
  readonly depth_mm?: number;
}

const corners: readonly Place[] = [
  { position_mm: 500, height_mm: 200 },
  { position_mm: 1500, height_mm: 200 },
  { position_mm: 500, height_mm: 900 },
];

function elevationOf(
  changes: readonly number[],
  places: readonly Place[] = corners,
  better: 'lower' | 'higher' = 'lower',
) {
  const walls = changes.map((change, at): WallChange => {
    const isTreated = at % 2 === 0;
    return {
      ...{ wall: `W${at}`, arm: isTreated ? 'treated' : 'sham', side: isTreated ? 'treated' : 'untreated', block: '' },
      ...{ before: 10, after: 10 + change, change, stations: 3, places: 'same' },
    };
  });
  const placed = walls.flatMap(({ wall }) =>
    places.map((place, at): Station => ({ station: `${wall}-${at}`, wall, ...place, origin })),
  );
  const stations = placed.map(
    ({ station, wall, height_mm = 0, depth_mm = 50 }): StationChange => ({
      ...{ station, wall, height_mm, before: 10 + depth_mm / 100, after: 8 },
    }),
  );
  const protocol = { ...soundProtocol, outcome: { ...soundProtocol.outcome, better } };
  return wallsInElevation({ stations: placed, protocol }, stations, walls);
}

describe('wallsInElevation(trial, stations, walls)', () => {
  it('takes all of six walls, and three of each arm of seven: best, middle, worst', () => {
    expect(elevationOf([-1, 0, -2, 0.5, -3, 0.25])?.walls).toHaveLength(6);
    const seven = elevationOf([-1, 0, -2, 0.5, -3, 0.25, -4]);
    expect(seven?.of).toBe(7);
    expect(seven?.walls.map(({ wall }) => wall)).toEqual(['W6', 'W4', 'W0', 'W1', 'W5', 'W3']);
    const higher = elevationOf([-1, 0, -2, 0.5, -3, 0.25, -4], corners, 'higher');
    expect(higher?.walls.map(({ wall }) => wall)).toEqual(['W0', 'W2', 'W6', 'W3', 'W5', 'W1']);
  });

  it('needs two positions and two heights', () => {
    const at = (position_mm: number, height_mm: number) => ({ position_mm, height_mm });
    expect(elevationOf([-1], [at(500, 200), at(600, 300)])).toBeDefined();
    expect(elevationOf([-1], [at(500, 200), at(500, 300)])).toBeUndefined();
    expect(elevationOf([-1], [at(500, 200), at(600, 200)])).toBeUndefined();
    expect(elevationOf([-1], [{ height_mm: 200 }, { height_mm: 300 }])).toBeUndefined();
  });

  it('takes the mean over the depths of a place', () => {
    const deep = [...corners, { position_mm: 500, height_mm: 200, depth_mm: 150 }];
    const [wall] = elevationOf([-1], deep)?.walls ?? [];
    expect(wall?.places).toHaveLength(3);
    expect(wall?.places[0]).toEqual({ position_mm: 500, height_mm: 200, before: 11, after: 8 });
  });
});
