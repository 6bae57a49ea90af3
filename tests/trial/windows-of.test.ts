import { describe, expect, it } from 'vitest';
import { daySorter, windowsOf } from '../../src/trial/index.js';
import { madeTrial, soundProtocol } from '../helpers/made-trial.js';

const own = { before: { from: '2024-06-01', to: '2024-08-31' }, after: { from: '2025-06-01', to: '2025-08-31' } };
const sound = madeTrial([
  { wall: 'A', arm: 'treated' },
  { wall: 'B', arm: 'sham' },
  { wall: 'C', arm: 'treated' },
]);
const [a, b, c] = sound.walls;
const trial = {
  ...sound,
  walls: [{ ...a!, treatedOn: '2024-04-10' }, b!, { ...c!, treatedOn: '2025-06-15', windows: own }],
};

describe('windowsOf', () => {
  it('gives a wall its own windows, else the plan’s, else none', () => {
    expect(windowsOf(trial, 'A')).toBe(soundProtocol.windows);
    expect(windowsOf(trial, 'C')).toBe(own);
    const { windows: _, ...without } = soundProtocol;
    expect(windowsOf({ ...trial, protocol: without }, 'A')).toBeUndefined();
    expect(windowsOf({ ...trial, protocol: without }, 'C')).toBe(own);
  });
});

describe('daySorter', () => {
  it.each([
    // The day before its treatment is a before day, the day of the treatment none.
    ['A', '2024-04-09', 'before'],
    ['A', '2024-04-10', 'treated-by-then'],
    ['A', '2024-05-31', 'treated-by-then'],
    ['A', '2024-06-01', 'outside'],
    ['A', '2025-03-01', 'after'],
    // An untreated wall without a day of treatment takes no exclusion.
    ['B', '2024-05-31', 'before'],
    ['B', '2025-05-31', 'after'],
    // Its own windows, and a treatment inside the after window.
    ['C', '2024-05-31', 'outside'],
    ['C', '2024-06-01', 'before'],
    ['C', '2025-06-14', 'not-yet-treated'],
    ['C', '2025-06-15', 'after'],
  ] as const)('wall %s on %s: %s', (wall, day, found) => {
    expect(daySorter(trial)(wall, day)).toBe(found);
  });

  it('finds no windows where neither plan nor wall has any', () => {
    const { windows: _, ...protocol } = soundProtocol;
    expect(daySorter({ ...trial, protocol })('A', '2024-04-01')).toBe('no-windows');
    expect(daySorter({ ...trial, protocol })('C', '2024-06-01')).toBe('before');
  });
});
