import { describe, expect, it } from 'vitest';
import { calendarOfVisits } from '../../src/findings/calendar-of-visits.js';
import { moistureReadings } from '../../src/moisture/index.js';
import type { Reading, Trial } from '../../src/trial/index.js';
import { madeTrial, soundProtocol, wallsWithChanges } from '../helpers/made-trial.js';

const origin = { file: 'readings.csv', row: 2 };
const made = madeTrial(wallsWithChanges([-1, -2], [0, 0.5]));

function reading(date: string, wall: string, instrument = 'core'): Reading {
  return { date, wall, station: '', instrument, value: { kind: 'measured', value: 5 }, origin };
}

function calendar(trial: Trial) {
  const arms = calendarOfVisits(trial, moistureReadings(trial));
  return { arms, of: new Map(arms.flatMap(({ walls }) => walls.map((wall) => [wall.wall, wall] as const))) };
}

describe('calendarOfVisits(trial, readings)', () => {
  it('says when every wall was cored, arm by arm, the treated first', () => {
    const { arms, of } = calendar({ ...made, protocol: { ...soundProtocol, arms: soundProtocol.arms.toReversed() } });
    expect(arms.map(({ arm, walls }) => [arm, walls.length])).toEqual([
      ['treated', 2],
      ['sham', 2],
    ]);
    expect(of.get('T1')).toMatchObject({ read: [], cored: ['2024-04-10', '2025-04-10'], missed: [] });
  });

  it.each([
    ['half of the walls', ['T1', 'U1'], []],
    ['more than half of them', ['T1', 'T2', 'U1'], ['2025-05-20']],
  ])('a visit of %s', (_, walls, missed) => {
    const readings = [...made.readings, ...walls.map((wall) => reading('2025-05-20', wall))];
    expect(calendar({ ...made, readings }).of.get('U2')?.missed).toEqual(missed);
  });

  it('tells days with a meter from days with a core, whichever of them is the outcome', () => {
    const outcome = { ...soundProtocol.outcome, instrument: 'mw' };
    const readings = [...made.readings, reading('2025-04-12', 'T1', 'mw'), reading('2025-04-10', 'T1', 'mw')];
    const { of } = calendar({ ...made, readings, protocol: { ...soundProtocol, outcome } });
    expect(of.get('T1')).toMatchObject({ read: ['2025-04-12'], cored: ['2024-04-10', '2025-04-10'] });
    expect(calendar({ ...made, readings }).of.get('T1')?.read).toEqual([]);
  });

  it('has the day of a treatment, not of a sham, and each wall’s own windows', () => {
    const windows = {
      before: { from: '2024-01-01', to: '2024-02-01' },
      after: { from: '2025-01-01', to: '2025-02-01' },
    };
    const walls = made.walls.map((wall) => ({
      ...{ ...wall, treatedOn: '2024-06-02' },
      ...(wall.wall === 'T2' ? { windows } : {}),
    }));
    const { of } = calendar({ ...made, walls });
    expect(of.get('T1')?.treatedOn).toBe('2024-06-02');
    expect(of.get('U1')?.treatedOn).toBeUndefined();
    expect(of.get('T1')?.windows).toEqual([soundProtocol.windows?.before, soundProtocol.windows?.after]);
    expect(of.get('T2')?.windows).toEqual([windows.before, windows.after]);
  });

  it('leaves out a wall that was never read', () => {
    const readings = made.readings.filter(({ wall }) => wall !== 'U1');
    expect(calendar({ ...made, readings }).arms.map(({ walls }) => walls.length)).toEqual([2, 1]);
  });
});
