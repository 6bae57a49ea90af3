import { describe, expect, it } from 'vitest';
import {
  blindingByRole,
  effectBeforeTreatment,
  effectOutOfReach,
  expectedFall,
  secondaryOutcomes,
} from '../../../src/analysis/index.js';
import { type Belief, moistureReadings, type Trial } from '../../../src/index.js';
import { welch } from '../../../src/statistics/index.js';
import { madeTrial, soundProtocol, wallsWithChanges } from '../../helpers/made-trial.js';

const changes = { treated: [-4.1, -3.6, -4.4, -3.9], untreated: [-0.2, 0.3, -0.4, 0.1] };
const walls = wallsWithChanges(changes.treated, changes.untreated);
const sound = madeTrial(walls);
const isTreated = (wall: string) => wall.startsWith('T');
const orderOf = (wall: string) => Number(wall.slice(1));

/** The trial with readings of its walls that depend on wall and day. */
function readOn(
  days: readonly string[],
  reads: (wall: string, day: string) => number,
  station = '',
): Trial['readings'] {
  return sound.walls.flatMap(({ wall }) =>
    days.map((date) => ({
      ...{ date, wall, station, instrument: 'core', value: { kind: 'measured' as const, value: reads(wall, date) } },
      origin: { file: 'readings.csv', row: 2 },
    })),
  );
}

function found(trial: Trial, by: typeof effectOutOfReach) {
  const answer = by(trial, moistureReadings(trial));
  return answer.kind === 'estimated' ? answer.estimate : answer.notEstimated.reason;
}

describe('effectBeforeTreatment', () => {
  const days = ['2024-03-05', '2024-03-20', '2024-04-05', '2024-04-20'];
  const drifting = (wall: string, day: string) => {
    const late = day >= '2024-04' ? 1 : 0;
    return 8 + late * (isTreated(wall) ? -1 - 0.1 * orderOf(wall) : 0.2 * orderOf(wall));
  };
  const trial = { ...sound, readings: readOn(days, drifting) };

  it('the later two of four days against the earlier two, by hand, as Welch has it', () => {
    const expected = welch([-1.1, -1.2, -1.3, -1.4], [0.2, 0.4, 0.6, 0.8]);
    expect(found(trial, effectBeforeTreatment)).toMatchObject({
      estimate: expect.closeTo(expected.estimate, 10),
      pValue: expect.closeTo(expected.pValue, 10),
    });
  });

  it('takes no day from the first treatment on: of three days left, two against one', () => {
    const treated = sound.walls.map((wall) => ({ ...wall, treatedOn: '2024-04-20' }));
    const early = {
      ...trial,
      walls: treated,
      readings: readOn(days, (wall, day) => (day < '2024-04' ? 8 : drifting(wall, day))),
    };
    const jumping = {
      ...early,
      readings: early.readings.map((one) =>
        one.date === '2024-04-20' ? { ...one, value: { kind: 'measured' as const, value: 99 } } : one,
      ),
    };
    expect(found(jumping, effectBeforeTreatment)).toEqual(found(early, effectBeforeTreatment));
  });
});

describe('effectOutOfReach', () => {
  const low = readOn(['2024-04-10', '2025-04-10'], (wall, day) => (day < '2025' || !isTreated(wall) ? 8 : 2), 'low');
  const high = readOn(
    ['2024-04-10', '2025-04-10'],
    (wall, day) => (day < '2025' ? 5 : 5 + 0.1 * orderOf(wall) + (isTreated(wall) ? 0.3 : 0)),
    'high',
  );
  const stations = sound.walls.flatMap(({ wall }) =>
    [300, 1800].map((height_mm) => ({
      ...{ wall, station: height_mm === 300 ? 'low' : 'high', height_mm, origin: { file: 'stations.csv', row: 2 } },
    })),
  );
  const trial = { ...sound, readings: [...low, ...high], stations };
  const limited = (unaffectedAbove_mm: number) => ({ ...trial, protocol: { ...soundProtocol, unaffectedAbove_mm } });

  it('looks at the stations above the height alone: 0.3 there, by hand', () => {
    const own = [0.1, 0.2, 0.3, 0.4];
    const expected = welch(
      own.map((one) => one + 0.3),
      own,
    );
    expect(found(limited(1500), effectOutOfReach)).toMatchObject({
      estimate: expect.closeTo(0.3, 10),
      standardError: expect.closeTo(expected.standardError, 10),
    });
  });

  it('says so where no station stands so high, and where the plan names no height', () => {
    expect(found(limited(1800), effectOutOfReach)).toEqual({ code: 'no-station-above', height_mm: 1800 });
    expect(found(trial, effectOutOfReach)).toEqual({ code: 'no-limit-of-reach' });
  });
});

it('expectedFall: mean 7, standard deviation 3, reliability 0.7, cutoff 10: 1.373 (Barnett and others 2005, by the formula)', () => {
  // Two visits a wall, 2 sqrt(1.35) apart, vary by 2.7 = 0.3 times 9.
  const away = Math.sqrt(1.35);
  const readings = readOn(
    ['2024-03-10', '2024-05-10'],
    (wall, day) => 11 + orderOf(wall) + (day < '2024-04' ? away : -away),
  );
  const screened = { walls: 80, mean: 7, standardDeviation: 3, cutoff: 10 };
  const trial = { ...sound, readings, protocol: { ...soundProtocol, screened } };
  const fall = expectedFall(trial, moistureReadings(trial));
  expect(fall).toMatchObject({ expected: expect.closeTo(1.373, 3), reliability: expect.closeTo(0.7, 12) });
});

it('blindingByRole: a second note of the same person on the same wall replaces the first, whichever stands first in the file', () => {
  const note = (date: string, believedArm: string): Belief => ({
    ...{ date, person: 'R1', role: 'reader', wall: 'T1', believedArm, origin: { file: 'blinding.csv', row: 2 } },
  });
  const [early, late] = [note('2024-06-01', 'treated'), note('2025-03-01', 'sham')];
  for (const beliefs of [
    [early, late],
    [late, early],
  ])
    expect(blindingByRole({ ...sound, beliefs })[0]?.guesses.treated).toEqual({ correct: 0, wrong: 1, undecided: 0 });
});

it('secondaryOutcomes: after a primary outcome that shows nothing, none is tested, however clear', () => {
  const meter = sound.readings.map((one) => ({ ...one, instrument: 'mw' }));
  const trial = {
    ...sound,
    readings: meter,
    protocol: { ...soundProtocol, secondary: [{ ...soundProtocol.outcome, instrument: 'mw' }] },
  };
  const stepAfter = (primary: number) => secondaryOutcomes(trial, moistureReadings(trial), primary)[0]?.inSequence;
  expect(stepAfter(0.01)).toBe('rejected');
  expect(stepAfter(0.4)).toBe('not-tested');
});
