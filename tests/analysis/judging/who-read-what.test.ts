import { describe, expect, it } from 'vitest';
import {
  blindingByRole,
  checksDrift,
  daysByArm,
  guessesBeyondChance,
  knowledgeWhereCompared,
  wallsTooDry,
} from '../../../src/analysis/index.js';
import { instrumentDrift } from '../../../src/moisture/index.js';
import { integerBelow, randomStream, welch } from '../../../src/statistics/index.js';
import type { Belief, BlockCheck, KnewArm } from '../../../src/trial/index.js';
import { coreTrial, protocol as weighed } from '../../helpers/core-trial.js';
import { madeTrial, soundProtocol } from '../../helpers/made-trial.js';
import { analysed, type StationTrial, stationTrial } from '../../helpers/station-trial.js';

const origin = { file: 'x.csv', row: 2 };
const plain = (further: Partial<StationTrial> = {}) =>
  stationTrial({
    value: ({ wall, place, window }) => 8 + 0.1 * wall - place - (window === 'after' ? 0.05 * wall : 0),
    ...further,
  });

describe('knowledgeWhereCompared', () => {
  it('counts after readings of the comparison alone: 57 % know where all readings together would say 29 %', () => {
    const knew = ({ window, wall }: { window: string; wall: number }): KnewArm =>
      window === 'after' && wall < 7 ? 'yes' : 'no';
    const trial = plain({ reading: (made) => ({ knewArm: knew(made), reader: made.wall < 7 ? 'Ada' : 'Ben' }) });
    const { changes } = analysed(trial);
    const found = knowledgeWhereCompared(trial, changes.used);
    expect(found.after).toEqual({ no: 30, unsure: 0, yes: 42, unrecorded: 0, all: 72 });
    expect(found.bySide.treated).toMatchObject({ yes: 24, no: 12, all: 36 });
    expect(found.readers.map(({ reader, yes, all }) => [reader, yes, all])).toEqual([
      ['Ada', 42, 42],
      ['Ben', 0, 30],
    ]);
  });

  it('tells unsure, unrecorded and unnamed apart, and passes over a wall that is left out', () => {
    const trial = plain({ reading: ({ wall }) => (wall === 0 ? { knewArm: 'unsure' } : {}) });
    const bare = trial.readings.map(({ knewArm: _, reader: __, ...rest }) => rest);
    const mixed = {
      ...trial,
      readings: [...trial.readings.filter(({ wall }) => wall === 'W0'), ...bare.filter(({ wall }) => wall !== 'W0')],
    };
    const found = knowledgeWhereCompared(mixed, analysed(mixed).changes.used);
    expect(found.after).toEqual({ no: 0, unsure: 6, yes: 0, unrecorded: 66, all: 72 });
    expect(found.readerNotRecorded).toBe(66);
    const lost = plain({
      value: ({ wall, window }) => (wall === 3 && window === 'before' ? undefined : 8 + wall),
      walls: 3,
    });
    expect(knowledgeWhereCompared(lost, analysed(lost).changes.used).after.all).toBe(30);
  });
});

describe('daysByArm', () => {
  const found = (further: Partial<StationTrial>) => {
    const trial = plain(further);
    const { changes, design } = analysed(trial);
    return daysByArm(trial, changes.used, new Map(design.walls.map(({ wall, side }) => [wall, side])));
  };

  it('the same days in both arms: all days shared, no difference of days', () => {
    expect(found({})).toEqual({
      before: { sharedDays: 2, days: 2, meanDifference_days: 0 },
      after: { sharedDays: 2, days: 2, meanDifference_days: 0 },
    });
  });

  it('treated walls read three weeks later after the treatment', () => {
    const { before, after } = found({
      reading: ({ isTreated, window, visit }) =>
        isTreated && window === 'after' ? { date: `2025-04-${22 + 2 * visit}` } : {},
    });
    expect(before?.meanDifference_days).toBe(0);
    expect(after).toEqual({ sharedDays: 0, days: 4, meanDifference_days: 21 });
  });
});

describe('wallsTooDry', () => {
  const trial = madeTrial([]);
  const weighedTrial = { ...trial, protocol: { ...weighed, margin: 2 } };
  const walls = [1.99, 2, 5].map((before, at) => ({
    wall: `t${at}`,
    arm: 'treated',
    side: 'treated' as const,
    block: '',
    before,
  }));

  it('a wall just below the margin could not lose it, one at the margin could', () => {
    const found = wallsTooDry(weighedTrial, walls);
    expect(found).toMatchObject({
      tooDry: ['t0'],
      withFloor: 0,
      bySide: { treated: { walls: 3, tooDry: 1 }, untreated: { walls: 0, tooDry: 0 } },
    });
    expect(found?.share).toBeCloseTo(1 / 3, 14);
    expect(found?.room).toBeCloseTo(8.99 / 3, 12);
  });

  it('a humid part of 1.5 % takes that off what a wall can lose', () => {
    const humid = coreTrial([
      { wall: 't2', wet_g: 105, dry_g: 100, humid_g: 101.5 },
      { wall: 't1', wet_g: 105, dry_g: 100, humid_g: 101.5, date: '2025-04-01' },
    ]);
    const found = wallsTooDry({ ...humid, protocol: { ...weighed, margin: 3.6 } }, walls.slice(1));
    expect(found).toMatchObject({ withFloor: 1, tooDry: ['t1', 't2'] });
    expect(wallsTooDry({ ...humid, protocol: { ...weighed, margin: 3.5 } }, walls.slice(1))?.tooDry).toEqual(['t1']);
  });

  it('asks nothing of an index, of an outcome that is to rise, or without a margin', () => {
    const { margin: _, ...unstated } = weighed;
    const index = { ...soundProtocol, outcome: { ...soundProtocol.outcome, instrument: 'mw' } };
    const rising = { ...weighed, outcome: { ...weighed.outcome, better: 'higher' as const } };
    for (const protocol of [unstated, index, rising])
      expect(wallsTooDry({ ...trial, protocol }, walls)).toBeUndefined();
    expect(wallsTooDry(weighedTrial, [])).toBeUndefined();
  });
});

describe('guessesBeyondChance', () => {
  const notes = (
    guessOf: (wall: number, person: number) => string,
    people = 1,
    further: Partial<Belief> = {},
  ): Belief[] =>
    Array.from({ length: 12 * people }, (_, at) => ({
      ...{ date: '2025-04-01', person: `P${Math.floor(at / 12)}`, role: 'reader' as const, wall: `W${at % 12}` },
      ...{ believedArm: guessOf(at % 12, Math.floor(at / 12)), origin, ...further },
    }));
  const of = (beliefs: readonly Belief[], further: Partial<StationTrial> = {}) =>
    guessesBeyondChance({ ...plain(further), beliefs });
  const right = (wall: number) => (wall % 2 === 0 ? 'treated' : 'sham');

  it('all twelve right: 1 of 924 allocations, in pairs 1 of 64; "treated" everywhere gains nothing', () => {
    expect(of(notes(right))[0]?.inTime).toMatchObject({ right: 12, wrong: 0, people: 1 });
    expect(of(notes(right))[0]?.inTime.pValue).toBeCloseTo(1 / 924, 12);
    expect(of(notes(right), { isPaired: true })[0]?.inTime.pValue).toBeCloseTo(1 / 64, 12);
    expect(of(notes(() => 'treated'))[0]?.inTime).toMatchObject({ right: 6, wrong: 6, pValue: 1 });
    expect(of(notes(() => 'unknown'))[0]?.inTime).toMatchObject({ undecided: 12, pValue: 1, smallestP: 1 });
  });

  it('two people who copy each other are no stronger than one', () => {
    const guess = (wall: number) => (wall < 8 ? right(wall) : right(wall + 1));
    const [one, two] = [of(notes(guess))[0]?.inTime, of(notes(guess, 2))[0]?.inTime];
    expect(two?.pValue).toBeCloseTo(one?.pValue ?? 0, 12);
    expect(two).toMatchObject({ right: 16, people: 2 });
  });

  it('a note on the day of its reading is in time, a day later late; the last one in time counts', () => {
    const early = notes(right, 1, { readingDate: '2025-04-01' });
    const later = notes((wall) => right(wall + 1), 1, { readingDate: '2025-04-01', date: '2025-04-02' });
    const [found] = of([...early, ...later]);
    expect(found?.inTime.right).toBe(12);
    expect(found?.late).toMatchObject({ right: 0, wrong: 12, pValue: 1 });
    // Without a reading's day, the last reading of the wall decides: 3 April 2025.
    expect(of(notes(right, 1, { date: '2025-04-03' }))[0]?.late.people).toBe(0);
    expect(of(notes(right, 1, { date: '2025-04-04' }))[0]?.late.people).toBe(1);
  });

  it('readers and occupants apart', () => {
    const found = of([...notes(right), ...notes((wall) => right(wall + 1), 1, { role: 'occupant' })]);
    expect(found.map(({ role, inTime }) => [role, inTime.right])).toEqual([
      ['reader', 12],
      ['occupant', 0],
    ]);
  });

  it('guesses drawn at random, also mostly "treated": p at or below 0.05 in at most 5 % of 600 seeded trials', () => {
    const stream = randomStream(3);
    let alarms = 0;
    for (let round = 0; round < 600; round++) {
      const drawn = Array.from({ length: 12 }, () => (integerBelow(stream, 10) < 7 ? 'treated' : 'sham'));
      const found = of(notes((wall) => drawn[wall] ?? ''));
      if ((found[0]?.inTime.pValue ?? 1) <= 0.05) alarms++;
    }
    expect(alarms).toBeLessThanOrEqual(30);
  });
});

describe('blindingByRole', () => {
  const note = (wall: number, believedArm: string, date = '2025-03-01'): Belief => ({
    ...{ date, person: 'Ada', role: 'reader' as const, wall: `W${wall}`, believedArm, origin },
  });
  const of = (beliefs: readonly Belief[]) => blindingByRole({ ...plain(), beliefs })[0];

  it('three right of four guesses: 5 of 16 coins make as many or more; the undecided are no guesses', () => {
    const found = of([note(0, 'treated'), note(1, 'sham'), note(2, 'treated'), note(3, 'treated'), note(4, 'unknown')]);
    expect(found?.guesses).toEqual({
      treated: { correct: 2, wrong: 0, undecided: 1 },
      untreated: { correct: 1, wrong: 1, undecided: 0 },
    });
    expect(found?.pValue).toBeCloseTo(5 / 16, 12);
    expect(of([note(1, 'treated')])?.pValue).toBe(1);
  });

  it('the last note of a person on a wall counts: of two on one day the one written later', () => {
    const right = (beliefs: readonly Belief[]) => of(beliefs)?.guesses.treated.correct;
    expect(right([note(0, 'sham'), note(0, 'treated')])).toBe(1);
    expect(right([note(0, 'treated'), note(0, 'sham')])).toBe(0);
    expect(right([note(0, 'treated', '2025-03-02'), note(0, 'sham')])).toBe(1);
  });
});

describe('checksDrift', () => {
  const check = (date: string, value: number, block = 'wet'): BlockCheck => ({
    ...{ date, block, instrument: 'core', value: { kind: 'measured', value }, origin },
  });
  const of = (checks: readonly BlockCheck[]) => checksDrift({ ...madeTrial([]), checks });

  it('one block: after less before is Welch’s pooled brother, worked by hand', () => {
    const found = of([
      check('2024-04-01', 20.1),
      check('2024-05-01', 19.9),
      check('2025-04-01', 17.1),
      check('2025-05-01', 16.9),
    ]);
    expect(found).toMatchObject({ from: 'windows', checks: 4, blocks: 1 });
    expect(found?.drift).toBeCloseTo(-3, 12);
    // Equal groups: the standard error is Welch's, sqrt(0.02 / 2 + 0.02 / 2), and the degrees of freedom 2.
    const { standardError } = welch([17.1, 16.9], [20.1, 19.9]);
    expect(found?.interval?.upper).toBeCloseTo(-3 + 4.302652729911275 * standardError, 9);
  });

  it('each block has its own level, and blocks of one window alone tell nothing', () => {
    const found = of([
      check('2024-04-01', 20),
      check('2025-04-01', 19),
      check('2024-04-01', 60, 'b'),
      check('2025-04-01', 59.2, 'b'),
      check('2025-04-02', 99, 'c'),
    ]);
    expect(found).toMatchObject({ blocks: 2, checks: 4 });
    expect(found?.drift).toBeCloseTo(-0.9, 12);
    // Squares about the shift: 0.5 · (0.1² + 0.1²) on one degree of freedom, over a weight of 1.
    expect(found?.interval?.upper).toBeCloseTo(-0.9 + 12.70620473617471 * 0.1, 8);
  });

  it('a block read twice in both windows counts twice as much as one read once: weights a·b/(a + b), by hand', () => {
    const twice = (day: string, value: number) => [check(day, value - 0.1), check(day, value + 0.1)];
    const found = of([
      ...[check('2024-04-01', 60, 'b'), check('2025-04-01', 59, 'b')],
      ...[...twice('2024-04-01', 20), ...twice('2025-04-01', 19.6)],
    ]);
    // (½ · −1 + 1 · −0.4) / 1½; squares of 4 · 0.1² inside and ½ · 0.4² + 0.2² between, on three degrees of freedom.
    expect(found?.drift).toBeCloseTo(-0.6, 12);
    const error = Math.sqrt(0.16 / 3 / 1.5);
    expect(found?.interval?.upper).toBeCloseTo(-0.6 + 3.182446305284263 * error, 9);
  });

  it('two checks give a drift without an interval; none, of another meter, or unmeasured give nothing', () => {
    const two = of([check('2024-04-01', 20), check('2025-04-01', 17)]);
    expect(two).toEqual({ from: 'windows', drift: -3, checks: 2, blocks: 1 });
    expect(of([])).toBeUndefined();
    expect(of([{ ...check('2024-04-01', 20), instrument: 'mw' }])).toBeUndefined();
    expect(of([{ ...check('2024-04-01', 20), value: { kind: 'missing' } }])).toBeUndefined();
  });

  it('where no check lies in the after window, the line through all of them over the days between the windows', () => {
    const checks = [check('2024-04-15', 20), check('2024-10-15', 19.4), check('2024-12-15', 19.3)];
    const line = instrumentDrift(
      checks.map(({ date, block, value }) => ({
        day: date,
        block,
        value: value.kind === 'measured' ? value.value : 0,
      })),
    );
    const found = of(checks);
    expect(found?.from).toBe('line');
    expect(found?.drift).toBeCloseTo((line.drift * 365) / line.days, 12);
    expect(found?.interval?.lower).toBeCloseTo((line.interval.lower * 365) / line.days, 12);
  });

  it('a steady meter: the interval leaves 0 out in 5 % of 1,000 seeded trials, give or take two standard errors', () => {
    const stream = randomStream(8);
    const noise = () => integerBelow(stream, 21) - 10;
    let alarms = 0;
    for (let round = 0; round < 1000; round++) {
      const found = of(
        ['2024-04-01', '2024-05-01', '2025-04-01', '2025-05-01'].flatMap((day) => [
          check(day, noise()),
          check(day, 50 + noise(), 'b'),
        ]),
      );
      const { lower = -1, upper = 1 } = found?.interval ?? {};
      if (lower > 0 || upper < 0) alarms++;
    }
    expect(alarms).toBeLessThanOrEqual(65);
    expect(alarms).toBeGreaterThan(30);
  });
});
