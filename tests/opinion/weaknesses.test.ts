import { describe, expect, it } from 'vitest';
import { formOpinion, type Seriousness, type Weakness } from '../../src/opinion/index.js';
import type { DiaryEvent, EventKind, Protocol, Reading, Trial } from '../../src/trial/index.js';
import { type MadeWall, madeTrial, soundProtocol, wallsWithChanges } from '../helpers/made-trial.js';

const walls = wallsWithChanges([-4.1, -3.6, -4.4, -3.9, -4.2, -3.7], [-0.2, 0.3, -0.4, 0.1, -0.1, 0.2]);
const sound = madeTrial(walls);

function protocolWith(changes: Partial<Protocol>): Trial {
  return { ...sound, protocol: { ...soundProtocol, ...changes } };
}

function protocolWithout(...keys: readonly (keyof Protocol)[]): Trial {
  const kept = Object.entries(soundProtocol).filter(([key]) => !keys.includes(key as keyof Protocol));
  return { ...sound, protocol: Object.fromEntries(kept) as unknown as Protocol };
}

function readingsWith(change: (reading: Reading) => Reading): Trial {
  return { ...sound, readings: sound.readings.map(change) };
}

/** The outcome read with a meter. */
function byMeter(change: (reading: Reading, index: number) => Reading): Trial {
  const outcome = { ...soundProtocol.outcome, instrument: 'mw' };
  const readings = sound.readings.map((reading, index) => change({ ...reading, instrument: 'mw' }, index));
  return { ...sound, readings, protocol: { ...soundProtocol, outcome } };
}

function withEvents(...events: readonly (readonly [date: string, kind: EventKind, wall?: string])[]): Trial {
  return {
    ...sound,
    events: events.map(([date, kind, wall], index): DiaryEvent => {
      const origin = { file: 'diary.csv', row: index + 2 };
      return { date, kind, note: '', origin, ...(wall === undefined ? {} : { wall }) };
    }),
  };
}

function without(list: readonly MadeWall[], window: 'before' | 'after', names: readonly string[]): MadeWall[] {
  return list.map((wall) => {
    if (!names.includes(wall.wall)) return wall;
    const { [window]: _, ...rest } = wall;
    return rest;
  });
}

function isAfter(reading: Reading): boolean {
  return reading.date > '2025';
}

function weaknessesOf(trial: Trial): readonly Weakness[] {
  return formOpinion(trial).verdict.weaknesses;
}

const plain = wallsWithChanges([-4.1, -3.6, -4.4, -3.9, -4.2, -3.7], [-0.2, 0.3, -0.4, 0.1, -0.1, 0.2], 'control');
const withControlArm: Partial<Trial> = {
  protocol: {
    ...soundProtocol,
    arms: [
      { arm: 'treated', role: 'treated' },
      { arm: 'control', role: 'control' },
    ],
  },
};
const wetterTreated = walls.map((wall) =>
  wall.arm === 'treated' ? { ...wall, before: (wall.before ?? 0) + 2, after: (wall.after ?? 0) + 2 } : wall,
);
const all = walls.map(({ wall }) => wall);

/** Each weakness with a trial that has it, how serious it must be there, and the numbers that its sentence must carry. */
const found: readonly (readonly [code: string, seriousness: Seriousness, trial: Trial, words: RegExp])[] = [
  ['no-untreated-walls', 'fatal', madeTrial(walls.filter(({ arm }) => arm === 'treated')), /All 6 walls/],
  [
    'no-treated-walls',
    'fatal',
    madeTrial(walls.filter(({ arm }) => arm !== 'treated')),
    /No wall in the comparison was treated \(6 untreated\)/,
  ],
  ['no-before-readings', 'serious', madeTrial(without(walls, 'before', all)), /core in the before window, 2024-03-01/],
  [
    'no-before-readings',
    'fatal',
    madeTrial(without(walls, 'before', all), {
      protocol: { ...soundProtocol, allocation: { method: 'chosen', by: '' } },
    }),
    /core in the before window, 2024-03-01/,
  ],
  ['no-after-readings', 'fatal', madeTrial(without(walls, 'after', all)), /core in the after window, 2025-03-01/],
  [
    'one-wall-an-arm',
    'fatal',
    madeTrial([walls[0] as MadeWall, walls[6] as MadeWall]),
    /1 treated wall and 1 untreated wall/,
  ],
  [
    'arms-confounded-with-blocks',
    'fatal',
    madeTrial(
      walls.map((wall) => ({ ...wall, block: wall.arm })),
      { protocol: { ...soundProtocol, allocation: { method: 'randomised', by: '', unit: 'wall' } } },
    ),
    /Each of the 2 blocks/,
  ],
  ['no-interval', 'fatal', madeTrial(wallsWithChanges([-1, -1], [-1, -1])), /do not vary between walls/],
  ['margin-absent', 'fatal', protocolWithout('margin'), /how large a difference/],
  ['windows-absent', 'fatal', protocolWithout('windows'), /which days/],
  ['not-randomised', 'serious', protocolWith({ allocation: { method: 'chosen', by: 'owner' } }), /not drawn by lot/],
  ['no-sham', 'minor', madeTrial(plain, withControlArm), /None of the 6 untreated walls/],
  [
    'too-few-walls',
    'serious',
    madeTrial(wallsWithChanges([-4, -3, -5], [0, 1, -1])),
    /6 walls .* is 0\.10, above the 0\.05/,
  ],
  ['readers-knew', 'serious', protocolWith({ blinding: { ...soundProtocol.blinding, readers: false } }), /0 of 24/],
  [
    'readers-knew',
    'serious',
    readingsWith((reading) => (isAfter(reading) ? { ...reading, knewArm: 'yes' } : reading)),
    /12 of 24 outcome readings \(50 %\)/,
  ],
  [
    'readers-knew',
    'minor',
    readingsWith((reading) => (reading.origin.row === 2 ? { ...reading, knewArm: 'yes' } : reading)),
    /1 of 24 outcome readings \(4 %\)/,
  ],
  ['blinding-not-recorded', 'minor', readingsWith(({ knewArm: _, ...reading }) => reading), /only 0 of 24/],
  ['unblinded-during-trial', 'serious', withEvents(['2024-09-01', 'unblinded']), /all walls on 2024-09-01/],
  ['unblinded-during-trial', 'minor', withEvents(['2024-09-01', 'unblinded', 'T1']), /T1 on 2024-09-01/],
  [
    'readers-changed',
    'minor',
    readingsWith((reading) => (isAfter(reading) ? { ...reading, reader: 'R2' } : reading)),
    /treated and untreated walls were mostly read by other people after \(R2\) than before \(R1\)/,
  ],
  [
    'readers-changed',
    'serious',
    readingsWith((reading) =>
      isAfter(reading) && reading.wall.startsWith('T') ? { ...reading, reader: 'R2' } : reading,
    ),
    /^The treated walls/,
  ],
  [
    'readers-differ-by-arm',
    'serious',
    readingsWith((reading) => ({ ...reading, reader: reading.wall.startsWith('T') ? 'R1' : 'R2' })),
    /by R1 and untreated walls by R2/,
  ],
  ['only-one-reader', 'minor', byMeter((reading) => reading), /^One person \(R1\) is named for all outcome readings/],
  [
    'walls-left-out',
    'minor',
    madeTrial(without(walls, 'after', ['T1', 'U1'])),
    /1 treated wall of 6 and 1 untreated wall of 6/,
  ],
  [
    'walls-left-out',
    'serious',
    madeTrial(without(walls, 'after', ['U1', 'U2'])),
    /0 treated walls of 6 and 2 .* \(U1 and U2\)/,
  ],
  [
    'before-values-unlike',
    'serious',
    madeTrial(wetterTreated),
    /10\.6 % by mass and the untreated at 8\.63 % by mass, 4\.28/,
  ],
  [
    'treated-walls-wettest',
    'serious',
    madeTrial(wetterTreated, { protocol: { ...soundProtocol, allocation: { method: 'chosen', by: 'owner' } } }),
    /10\.6 % by mass against 8\.63/,
  ],
  [
    'windows-in-different-months',
    'minor',
    protocolWith({
      windows: { before: { from: '2024-01-01', to: '2024-05-31' }, after: { from: '2025-04-01', to: '2025-09-30' } },
    }),
    /January to May and the after window April to September/,
  ],
  ['walls-chosen-wettest', 'minor', protocolWith({ selection: 'wettest' }), /drawn by lot from the same walls/],
  [
    'walls-chosen-wettest',
    'serious',
    protocolWith({ selection: 'wettest', allocation: { method: 'chosen', by: 'owner' } }),
    /picked at their worst/,
  ],
  ['plan-undated', 'serious', protocolWithout('plannedOn'), /no date/],
  [
    'planned-late',
    'serious',
    protocolWith({ plannedOn: '2025-03-02' }),
    /2025-03-02, after the after window began on 2025-03-01/,
  ],
  [
    'interests-not-stated',
    'minor',
    protocolWith({ disclosures: { funding: ' ', interests: '' } }),
    /who paid or who gains/,
  ],
  [
    'event-in-one-arm',
    'serious',
    withEvents(['2024-08-01', 'leak', 'U1'], ['2024-08-02', 'leak', 'U2']),
    /leak struck 2 of 6 untreated walls \(U1 and U2, 2024-08-01 and 2024-08-02\)/,
  ],
  ['event-in-one-arm', 'minor', withEvents(['2024-08-01', 'heating', 'T1']), /heating struck 1 of 6 treated walls/],
  ['instrument-changed', 'minor', withEvents(['2024-08-01', 'instrument-changed']), /2024-08-01/],
  [
    'outcome-is-an-index',
    'serious',
    {
      ...protocolWith({ outcome: { ...soundProtocol.outcome, instrument: 'mw' } }),
      readings: sound.readings.map((reading) => ({ ...reading, instrument: 'mw' })),
    },
    /mw \(microwave\)/,
  ],
  [
    'readings-below-detection',
    'minor',
    {
      ...sound,
      readings: [
        ...sound.readings,
        { ...(sound.readings[0] as Reading), value: { kind: 'below-detection', limit: 0.5 } },
      ],
    },
    /1 of 25 outcome readings \(4 %\)/,
  ],
];

describe('findWeaknesses', () => {
  it('finds none in a sound trial', () => {
    expect(weaknessesOf(sound)).toEqual([]);
  });

  it.each(found)('finds %s, %s', (code, seriousness, trial, words) => {
    const weakness = weaknessesOf(trial).find((one) => one.code === code);
    expect(weakness?.seriousness).toBe(seriousness);
    expect(weakness?.text).toMatch(words);
    expect(weakness?.text).toMatch(/^[A-Z0-9].*\.$/);
    expect(weakness?.remedy).toMatch(/^[A-Z].*\.$/);
  });

  it('lists the most serious first', () => {
    const order: readonly Seriousness[] = ['fatal', 'serious', 'minor'];
    const trial = madeTrial([walls[0] as MadeWall, walls[6] as MadeWall], {
      protocol: { ...soundProtocol, disclosures: { funding: '', interests: '' }, plannedOn: '2025-06-01' },
    });
    const ranks = weaknessesOf(trial).map(({ seriousness }) => order.indexOf(seriousness));
    expect(new Set(ranks).size).toBe(3);
    expect(ranks).toEqual([...ranks].sort());
  });

  it.each([
    ['an event on both sides', withEvents(['2024-08-01', 'leak', 'U1'], ['2024-08-02', 'leak', 'T2'])],
    ['an event on every wall', withEvents(['2024-08-01', 'flood'])],
    ['an event after the trial', withEvents(['2025-08-01', 'leak', 'U1'])],
    ['the installation', withEvents(['2024-06-15', 'installed', 'T1'])],
    ['an arm that became known after the last reading', withEvents(['2025-06-15', 'unblinded'])],
    ['a plan dated on the first day of the after window', protocolWith({ plannedOn: '2025-03-01' })],
    ['walls not chosen by moisture', protocolWith({ selection: 'not-by-moisture' })],
    ['four against four', madeTrial(wallsWithChanges([-4, -3, -5, -4.5], [0, 1, -1, 0.5]))],
  ])('makes nothing of %s', (_, trial) => {
    expect(weaknessesOf(trial)).toEqual([]);
  });

  it('does not find one reader where two held the meter, or nobody is named', () => {
    const two = byMeter((reading, index) => ({ ...reading, reader: index % 4 < 2 ? 'R1' : 'R2' }));
    const none = byMeter(({ reader: _, ...reading }) => reading);
    for (const trial of [two, none])
      expect(weaknessesOf(trial).map(({ code }) => code)).not.toContain('only-one-reader');
  });

  it('takes one wall in a block against two as serious, since an interval can be put on it', () => {
    const [one, two] = [wallsWithChanges([-4], [0.1, -0.3, 0.4, 0.2]), ['a', 'a', 'a', 'b', 'b']];
    const trial = madeTrial(one.map((wall, index) => ({ ...wall, block: two[index] ?? '' })));
    expect(weaknessesOf(trial).find(({ code }) => code === 'one-wall-an-arm')?.seriousness).toBe('serious');
  });
});
