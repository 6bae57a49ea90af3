import type { ElectricalWall } from '../../../../src/findings/electrical/electrical-of-trial.js';
import type { Trial } from '../../../../src/trial/index.js';
import { plannedDays, withElectrodes } from '../../../helpers/electrical-trial.js';
import { madeTrial, wallsWithChanges } from '../../../helpers/made-trial.js';
import { type Row, rowsOf } from './row.js';
import { isTreated, planned, sound } from './trials.js';

/** A trial that finds no worthwhile effect. */
const nothing = madeTrial(wallsWithChanges([0.1, -0.2, 0.2, -0.1, 0.1, 0], [-0.2, 0.3, -0.4, 0.1, -0.1, 0.2]));

const onFor = (share: number, trial: Trial = sound) => withElectrodes(trial, { daysOn: share * plannedDays });

/** 0.04 A for 30 days, less by a straight line over 30 more, and on for 120: the trapezoids then keep what `kept` says. */
const keeping = (kept: number, trial: Trial = sound) => {
  const later = (0.04 * (180 * kept - 45)) / 135;
  return withElectrodes(trial, {
    days: [0, 30, 60, 180],
    current: (wall, day) => (!isTreated(wall) ? 0 : day <= 30 ? 0.04 : later),
  });
};

/** Turned for the last so many of 100 days. */
const turned = (share: number, trial: Trial = sound) =>
  withElectrodes(trial, {
    days: [...new Set([0, 50, 100 - 100 * share, 100])],
    polarity: (day) => (day >= 100 - 100 * share ? 'cathode-in-wall' : 'anode-in-wall'),
  });

/** In U3, as a share of what every treated wall has. */
const stray = (share: number, trial: Trial = sound) =>
  withElectrodes(trial, { current: (wall) => (isTreated(wall) ? 0.04 : wall === 'U3' ? 0.04 * share : 0) });

const byElectrodes = planned({ treatment: { kind: 'electrodes', polarity: 'anode-in-wall' } });
const only = (trial: Trial, of: (wall: string) => boolean): Trial => ({
  ...trial,
  electrical: trial.electrical?.filter(({ wall }) => of(wall)) ?? [],
});

/** One treated wall on record, and what is said of it exactly so. */
const exactly = (change: (wall: ElectricalWall) => ElectricalWall): Pick<Row, 'change'> => ({
  change: ({ facts, numbers }) => ({
    facts,
    numbers: { ...numbers, electrical: (numbers.electrical ?? []).filter(({ wall }) => wall === 'T1').map(change) },
  }),
});
const onExactly = (onShare: number) => exactly((wall) => ({ ...wall, onShare }));
const reversedExactly = (reversedShare: number) =>
  exactly((wall) => ({ ...wall, circuits: wall.circuits.map((circuit) => ({ ...circuit, reversedShare })) }));

export const electrodeRows: readonly Row[] = [
  ...rowsOf(
    'electrodes-interrupted',
    ['not found', 'on all the time', onFor(1), { value: 1 }],
    ['not found', 'for four fifths of it', onFor(0.8), { value: 0.8 }],
    ['not found', 'for exactly four fifths of it', onFor(1), { value: 0.8, ...onExactly(0.8) }],
    ['not found', 'for 81 % of it', onFor(0.81), { value: 0.81, within: 'electrodesOn' }],
    [
      'minor',
      'for 79 %, and the walls dried',
      onFor(0.79),
      { value: 0.79, beyond: 'electrodesOn', direction: 'away from the claim' },
    ],
    ['serious', 'for 79 %, and nothing was found', onFor(0.79, nothing), { value: 0.79 }],
    ['open', 'electrodes, and no record', byElectrodes],
    [
      'open',
      'electrodes, and a record of untreated walls alone',
      only(onFor(1, byElectrodes), (wall) => !isTreated(wall)),
    ],
    ['no entry', 'another treatment', planned({ treatment: { kind: 'device' } })],
    ['no entry', 'no treatment is stated', sound],
  ),
  ...rowsOf(
    'current-fell-away',
    ['not found', 'half kept', keeping(0.5), { value: 0.5 }],
    ['not found', '51 % kept', keeping(0.51), { value: 0.51, within: 'currentKept' }],
    ['minor', '49 % kept, and the walls dried', keeping(0.49), { value: 0.49, beyond: 'currentKept' }],
    ['serious', '49 % kept, and nothing was found', keeping(0.49, nothing)],
    ['no entry', 'no record', sound],
    ['no entry', 'a record of untreated walls alone', only(onFor(1), (wall) => !isTreated(wall))],
  ),
  ...rowsOf(
    'current-reversed',
    ['not found', 'never', turned(0), { value: 0 }],
    ['not found', '4.9 % of the time', turned(0.049), { value: 0.049, within: 'currentReversed' }],
    ['minor', '5 %, and the walls dried', turned(0.05), { value: 0.05 }],
    ['minor', 'exactly 5 %, and the walls dried', turned(0.1), { value: 0.05, ...reversedExactly(0.05) }],
    ['minor', '5.1 %, and the walls dried', turned(0.051), { value: 0.051, beyond: 'currentReversed' }],
    ['serious', '5.1 %, and nothing was found', turned(0.051, nothing)],
    ['no entry', 'no polarity is stated', onFor(1)],
  ),
  ...rowsOf(
    'current-in-untreated-walls',
    ['not found', 'none', stray(0), { value: 0 }],
    ['not found', '4.9 % in one', stray(0.049), { value: 0.049, within: 'strayCurrent' }],
    ['minor', '5 % in one, and the treated walls dried', stray(0.05), { value: 0.05 }],
    ['minor', '5.1 % in one, and the treated walls dried', stray(0.051), { value: 0.051, beyond: 'strayCurrent' }],
    ['serious', '5.1 % in one, and nothing was found', stray(0.051, nothing)],
    ['minor', 'in untreated walls alone', withElectrodes(sound, { current: (wall) => (isTreated(wall) ? 0 : 0.04) })],
    ['no entry', 'in none at all', withElectrodes(sound, { current: () => 0 })],
    ['no entry', 'no untreated wall on record', only(onFor(1), isTreated)],
  ),
];
