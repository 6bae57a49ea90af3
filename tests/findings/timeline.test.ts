import { describe, expect, it } from 'vitest';
import { timelineOf } from '../../src/findings/timeline.js';
import { moistureReadings } from '../../src/moisture/index.js';
import { madeTrial, wallsWithChanges } from '../helpers/made-trial.js';

const made = madeTrial(wallsWithChanges([-1, -2], [0, 0.5]));
const origin = { file: 'diary.csv', row: 2 };
const trial = {
  ...made,
  walls: made.walls.map((wall) => ({ ...wall, treatedOn: wall.wall === 'T2' ? '2024-06-02' : '2024-06-01' })),
  events: [
    { date: '2024-08-01T10:00', wall: 'T1', kind: 'leak' as const, note: 'pipe', origin },
    { date: '2024-07-01', kind: 'flood' as const, note: '', origin },
  ],
};

describe('timelineOf', () => {
  const { readingDays, treatedDays, events } = timelineOf(trial, moistureReadings(trial));

  it('counts the outcome’s readings by day, in order', () => {
    expect(readingDays).toEqual([
      { day: '2024-04-10', readings: 4 },
      { day: '2025-04-10', readings: 4 },
    ]);
  });

  it('counts treated walls only, for a sham is fitted and not a treatment', () => {
    expect(treatedDays).toEqual([
      { day: '2024-06-01', walls: 1 },
      { day: '2024-06-02', walls: 1 },
    ]);
  });

  it('lists the diary in order of days, with the walls that each event struck', () => {
    expect(events).toEqual([
      { day: '2024-07-01', kind: 'flood', walls: 'all walls', note: '' },
      { day: '2024-08-01', kind: 'leak', walls: 'T1', note: 'pipe' },
    ]);
  });
});
