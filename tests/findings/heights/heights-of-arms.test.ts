import { describe, expect, it } from 'vitest';
import type { StationChange } from '../../../src/analysis/index.js';
import { heightsOfArms } from '../../../src/findings/heights/heights-of-arms.js';

const wall = (name: string, arm: string, side: 'treated' | 'untreated') => ({
  ...{ wall: name, arm, side, block: '', before: 9, after: 8, change: -1 },
  ...{ stations: 2, places: 'same' as const },
});
const armed = {
  protocol: {
    arms: [
      { arm: 'none', role: 'control' as const },
      { arm: 'device', role: 'treated' as const },
    ],
  },
  walls: [wall('A', 'device', 'treated'), wall('B', 'none', 'untreated')],
};
const at = (name: string, height_mm: number, before: number, after: number): StationChange => ({
  ...{ wall: name, station: `${name}-${height_mm}-${before}`, height_mm, before, after },
});

describe('heightsOfArms(walls, stations)', () => {
  it('averages the stations of an arm at each height, from the foot up, treated arms first (by hand)', () => {
    const found = heightsOfArms(armed, [
      at('B', 300, 7, 7),
      at('A', 900, 4, 3),
      at('A', 300, 10, 8),
      at('A', 300, 12, 9),
    ]);
    expect(found.map(({ arm }) => arm)).toEqual(['device', 'none']);
    expect(found[0]?.means).toEqual([
      { height_mm: 300, stations: 2, before: 11, after: 8.5 },
      { height_mm: 900, stations: 1, before: 4, after: 3 },
    ]);
  });

  it('leaves stations without a height or without both values aside', () => {
    const { height_mm: _, ...noHeight } = at('A', 300, 10, 8);
    const { after: __, ...noAfter } = at('A', 300, 10, 8);
    expect(heightsOfArms(armed, [noHeight, noAfter])).toEqual([]);
  });

  it('gives no means beyond twelve heights', () => {
    const stations = (count: number) => Array.from({ length: count }, (_, k) => at('A', 100 * (k + 1), 9, 8));
    expect(heightsOfArms(armed, stations(12))[0]?.means).toHaveLength(12);
    expect(heightsOfArms(armed, stations(13))[0]).toMatchObject({ walls: 1, means: [] });
  });
});
