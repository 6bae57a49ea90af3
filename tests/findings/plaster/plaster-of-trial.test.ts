import { describe, expect, it } from 'vitest';
import type { Side } from '../../../src/analysis/index.js';
import { plasterOfTrial } from '../../../src/findings/plaster/plaster-of-trial.js';
import { moistureReadings } from '../../../src/moisture/index.js';
import type { DiaryEvent, EventKind, Trial } from '../../../src/trial/index.js';
import { madeTrial, wallsWithChanges } from '../../helpers/made-trial.js';

const made = madeTrial(wallsWithChanges([-4, -3, -5], [0, 1, -1]));
const sides = new Map<string, Side>(
  made.walls.map(({ wall }) => [wall, wall.startsWith('T') ? 'treated' : 'untreated']),
);

function found(events: readonly (readonly [string, EventKind, string?])[], trial: Trial = made) {
  const diary = events.map(([date, kind, wall], index): DiaryEvent => {
    const origin = { file: 'diary.csv', row: index + 2 };
    return { date, kind, note: '', origin, ...(wall === undefined ? {} : { wall }) };
  });
  return plasterOfTrial({ ...trial, events: diary }, moistureReadings(trial), sides);
}

describe('plasterOfTrial', () => {
  it('counts walls by arm and kind of work, days apart by hand', () => {
    const plaster = found([
      ['2024-07-01', 'plaster-stripped', 'T1'],
      ['2024-07-11', 'replastered', 'T1'],
      ['2024-07-21', 'replastered', 'T2'],
      ['2024-08-25T09:00', 'replastered', 'U1'],
    ]);
    expect(plaster?.bySide).toEqual({
      treated: { walls: 3, stripped: 1, renewed: 2 },
      untreated: { walls: 3, stripped: 0, renewed: 1 },
    });
    expect(plaster?.apart).toBeCloseTo(1 / 3, 12);
    // 16 July against 25 August.
    expect(plaster?.daysApart).toBe(-40);
    expect(plaster?.walls.map(({ wall }) => wall)).toEqual(['T1', 'T2', 'U1']);
    expect(plaster?.after).toEqual({ all: 6, onNew: 3 });
  });

  it('compares what was read on new plaster with what was read before any work, by wall', () => {
    const plaster = found([
      ['2024-07-11', 'replastered', 'T1'],
      ['2024-07-11', 'replastered', 'T2'],
    ]);
    // T1 starts from 8 and T2 from 8.25; they fell by 4 and by 3.
    expect(plaster?.readings).toEqual([{ instrument: 'core', side: 'treated', walls: 2, before: 8.125, onNew: 4.625 }]);
    expect(found([['2024-04-01', 'replastered', 'T1']])?.readings).toEqual([]);
    expect(found([['2024-07-11', 'plaster-stripped', 'T1']])?.readings).toEqual([]);
  });

  it('an event without a wall struck them all', () => {
    const plaster = found([['2024-07-11', 'plaster-stripped']]);
    expect(plaster?.bySide.untreated).toEqual({ walls: 3, stripped: 3, renewed: 0 });
    expect(plaster?.apart).toBe(0);
    expect(plaster?.daysApart).toBe(0);
  });

  it('a wall’s own windows say which work counts', () => {
    const windows = {
      before: { from: '2025-01-01', to: '2025-02-01' },
      after: { from: '2026-01-01', to: '2026-02-01' },
    };
    const walls = made.walls.map((wall) => (wall.wall === 'T1' ? { ...wall, windows } : wall));
    const events = [['2025-10-01', 'replastered', 'T1']] as const;
    expect(found(events, { ...made, walls })?.bySide.treated.renewed).toBe(1);
    expect(found(events)).toBeUndefined();
  });

  it('nothing where no work is noted', () => {
    expect(found([['2024-07-11', 'leak', 'T1']])).toBeUndefined();
  });
});
