import { describe, expect, it } from 'vitest';
import type { Side } from '../../../src/analysis/index.js';
import { adjustedAnswers } from '../../../src/findings/drying/adjusted-answers.js';
import { dryingChecks } from '../../../src/findings/drying/drying-checks.js';
import { impliedEvaporation } from '../../../src/findings/drying/implied-evaporation.js';
import { startsOfWalls } from '../../../src/findings/drying/starts-of-walls.js';
import { waitOfTrial } from '../../../src/findings/drying/wait-of-trial.js';
import { curvesOfWalls, outcomeReadings } from '../../../src/findings/drying/wall-curves.js';
import { moistureReadings } from '../../../src/index.js';
import { addDays } from '../../../src/plain/days.js';
import type { Trial } from '../../../src/trial/index.js';
import { madeTrial, soundProtocol, wallsWithChanges } from '../../helpers/made-trial.js';

const late_d = 200;
const sidesOf = ({ walls }: Trial): ReadonlyMap<string, Side> =>
  new Map(walls.map(({ wall, arm }) => [wall, arm === 'treated' ? 'treated' : 'untreated']));

const planned = {
  before: { from: '2024-03-01', to: '2024-05-31' },
  after: { from: '2024-07-01', to: '2024-09-30' },
};
const beforeDays = ['2024-03-10', '2024-04-09', '2024-05-09', '2024-05-29'];
const afterDays = ['2024-07-08', '2024-08-07', '2024-09-06'];

/**
 * Six walls, of which the second of each arm lives everything 200 days later than the others and says so with windows of its own. Treated walls fall by 1.5 at
 * the treatment, untreated ones do not.
 */
function staggered(shift: number, hasPlan = true): Trial {
  const made = madeTrial(wallsWithChanges([0, 0, 0], [0, 0, 0]));
  const { windows: _, ...open } = soundProtocol;
  const isLate = (wall: string) => wall.endsWith('2');
  const move = (day: string, wall: string) => (isLate(wall) ? addDays(day, shift) : day);
  const walls = made.walls.map((wall) => {
    const { before, after } = planned;
    const moved = (day: string) => move(day, wall.wall);
    const windows = {
      before: { from: moved(before.from), to: moved(before.to) },
      after: { from: moved(after.from), to: moved(after.to) },
    };
    const isOwn = isLate(wall.wall) || !hasPlan;
    return { ...wall, thickness_mm: 300, treatedOn: moved('2024-06-03'), ...(isOwn ? { windows } : {}) };
  });
  const readings = made.walls.flatMap(({ wall, arm }, k) =>
    [...beforeDays, ...afterDays].map((day, visit) => {
      const fall = visit >= beforeDays.length && arm === 'treated' ? 1.5 : 0;
      const scatter = 0.1 * Math.sin(1 + 7 * k + 3 * visit);
      return {
        date: move(day, wall),
        wall,
        station: '',
        instrument: 'core',
        value: { kind: 'measured' as const, value: 9 + k - fall + scatter },
        origin: { file: 'readings.csv', row: 2 + visit },
      };
    }),
  );
  return { ...made, protocol: hasPlan ? { ...soundProtocol, windows: planned } : open, walls, readings };
}

const whole = (trial: Trial) => {
  const [readings, sides] = [moistureReadings(trial), sidesOf(trial)];
  return { trial, readings, sides, walls: [...sides].map(([wall, side]) => ({ wall, side })) };
};

describe('drying by each wall’s own windows: walls that live everything 200 days later', () => {
  const [alike, late] = [whole(staggered(0)), whole(staggered(late_d))];

  it.each([
    ['with a plan', late],
    ['with windows of walls alone', whole(staggered(late_d, false))],
  ])('impliedEvaporation and waitOfTrial, %s, are what they are without the shift', (_, shifted) => {
    const [one, other] = [alike, shifted].map(({ trial, readings, sides, walls }) => {
      const implied = impliedEvaporation(trial, readings, sides);
      if (implied.kind === 'not-computed') throw new Error(implied.reason.code);
      return {
        falls: implied.walls.map(({ wall, fall_pp, days }) => [wall, fall_pp, days]),
        waits: waitOfTrial(trial, walls)?.walls.map(({ wall, days }) => [wall, days]),
      };
    });
    expect(other).toEqual(one);
    expect(one?.falls).toHaveLength(6);
    // 3 June to 7 August, the mean of the three after visits.
    expect(one?.waits).toEqual(['T1', 'T2', 'T3'].map((wall) => [wall, 65]));
  });

  it('dryingChecks finds the walls as steady as without the shift', () => {
    const [one, other] = [alike, late].map(({ trial, readings, sides }) => dryingChecks(trial, readings, sides).steady);
    expect(one?.walls).toBe(6);
    // From the first visit, 10 March, to the last, 29 May: not from the beginning of the window.
    expect(one?.window_d).toBe(80);
    expect(other).toEqual(one);
  });

  it('startsOfWalls counts from the end of each wall’s own before window where no treatment is on record', () => {
    const { trial, sides } = late;
    const walls = trial.walls.map(({ treatedOn: _, ...wall }) => wall);
    const starts = startsOfWalls({ ...trial, walls }, sides);
    expect(starts?.startIs).toBe('end-of-before-window');
    expect([...(starts?.startOf ?? [])].map(([wall, day]) => `${wall} ${day}`)).toEqual(
      ['T1', 'T2', 'T3', 'U1', 'U2', 'U3'].map((wall) => `${wall} ${wall.endsWith('2') ? '2024-12-17' : '2024-05-31'}`),
    );
    const { windows: _, ...plan } = trial.protocol;
    const open = walls.map(({ windows: __, ...wall }) => wall);
    expect(startsOfWalls({ ...trial, protocol: plan, walls: open }, sides)).toBeUndefined();
  });

  it('adjustedAnswers compares the late walls too, and nothing without any windows', () => {
    const answersOf = ({ trial, readings, sides }: typeof late) => {
      const { curves } = curvesOfWalls(trial, outcomeReadings(trial, readings, sides), sides, () => '2024-03-01');
      return adjustedAnswers(trial, curves);
    };
    const walls = answersOf(late).map((answer) =>
      answer.kind === 'estimated'
        ? answer.estimate.walls.treated + answer.estimate.walls.untreated
        : answer.notEstimated,
    );
    expect(walls).toEqual([6]);
    const { windows: _, ...plan } = late.trial.protocol;
    const open = late.trial.walls.map(({ windows: __, ...wall }) => wall);
    expect(answersOf({ ...late, trial: { ...late.trial, protocol: plan, walls: open } })).toEqual([]);
  });
});
