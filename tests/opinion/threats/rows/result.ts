import { verdictCode } from '../../../../src/index.js';
import { welch } from '../../../../src/statistics/index.js';
import { madeTrial, soundProtocol, wallsWithChanges } from '../../../helpers/made-trial.js';
import { type Row, rowsOf } from './row.js';
import {
  amountOf,
  isAfter,
  isTreated,
  measured,
  planned,
  reading,
  solve,
  sound,
  unplanned,
  untreatedChanges,
  walls,
} from './trials.js';

const oneAndOne = madeTrial(walls.filter(({ wall }) => wall === 'T1' || wall === 'U1'));
const { margin: _, ...withoutMargin } = soundProtocol;
const passMark = { source: 'an agreement', asMargin: true, by: '2025-06-01', kind: 'target' as const };
const marked = (target: number) => ({ ...sound, protocol: { ...withoutMargin, passMark: { ...passMark, target } } });

/** Every wall read once more between the treatment and the after window. */
const readBetween = (plannedOn: string, date = '2024-09-01') => {
  const more = sound.readings.filter(isAfter).map((one) => ({ ...one, date }));
  return planned({ plannedOn }, { ...sound, readings: [...sound.readings, ...more] });
};
const disclosed = (funding: string, interests: string) => planned({ disclosures: { funding, interests } });

const ownT = [0.12, -0.2, 0.31, -0.05, 0.22, -0.3];
/** Treated walls so far below the untreated ones that the interval just ends there. */
const endingAt = (limit: number) => {
  const of = (shift: number) => ownT.map((one) => one + shift);
  const shift = solve((one) => welch(of(one), untreatedChanges).interval.upper, limit, -10, 10);
  const treated = of(shift);
  const code = (one: readonly number[], other: readonly number[]) =>
    verdictCode(welch(one, other).interval, 2, 'lower');
  const without = (list: readonly number[], at: number) => list.filter((_one, index) => index !== at);
  const turned = [
    ...treated.map((_one, at) => code(without(treated, at), untreatedChanges)),
    ...untreatedChanges.map((_one, at) => code(treated, without(untreatedChanges, at))),
  ].filter((one) => one !== code(treated, untreatedChanges));
  return { trial: madeTrial(wallsWithChanges(treated, untreatedChanges)), share: turned.length / 12 };
};

/** Each wall at two stations, each with its reader; treated walls change by so much more there. */
const twoReaders = (first: number, second: number) => {
  const readings = sound.readings.flatMap((one) =>
    [first, second].map((change, at) => {
      const shift = isAfter(one) && isTreated(one.wall) ? 4 + change : 0;
      return { ...one, station: `s${at}`, reader: `R${at + 1}`, value: measured(amountOf(one) + shift) };
    }),
  );
  return { ...sound, readings };
};
/** Every wall read after by one who knew and by one who did not. */
const halfBlind = (blind: number, knowing: number) => {
  const trial = twoReaders(blind, knowing);
  return reading(
    (one) => ({
      ...one,
      station: '',
      knewArm: isAfter(one) && one.reader === 'R2' ? ('yes' as const) : ('no' as const),
    }),
    trial,
  );
};

/** So many other analyses, of which so many lead to the same verdict. */
const choices = (kept: number, of: number): NonNullable<Row['change']> => {
  return (grounds) => {
    const { primary } = grounds.facts;
    if (primary.kind !== 'estimated') throw new Error('there is no interval');
    const other = { ...primary.estimate, interval: { level: 0.95, lower: -1, upper: 1 } };
    const answers = Array.from({ length: of }, (_one, at) => ({
      kind: 'estimated' as const,
      estimate: at < kept ? primary.estimate : other,
    }));
    return { ...grounds, numbers: { ...grounds.numbers, choices: answers } };
  };
};

/** Without T2 or U2 the interval of so few includes zero. */
const threeAgainstThree = madeTrial(wallsWithChanges([-4, -4.9, -5.8], [-0.9, 0, 0.9]));
const [barely, barelyMore] = [endingAt(-0.01), endingAt(-2.01)];

export const resultRows: readonly Row[] = [
  ...rowsOf(
    'margin-absent',
    ['serious', 'no margin', unplanned('margin')],
    ['serious', 'a pass mark at which the walls stood before', marked(8.7)],
    ['not found', 'a pass mark', marked(6)],
    ['not found', 'a margin', sound],
  ),
  ...rowsOf(
    'plan-undated',
    ['silent', 'no date', unplanned('plannedOn'), { direction: 'towards the claim' }],
    ['not found', 'a date', sound],
  ),
  ...rowsOf(
    'planned-late',
    ['not found', 'on the first day of the after window', planned({ plannedOn: '2025-03-01' })],
    ['serious', 'the day after', planned({ plannedOn: '2025-03-02' }), { direction: 'towards the claim' }],
    ['not found', 'on the day of the first reading after the treatment', readBetween('2024-09-01')],
    ['serious', 'the day after it, and before the after window', readBetween('2024-09-02')],
    ['not found', 'the day after the treatment, read on the day of it', readBetween('2024-06-11', '2024-06-10')],
    ['no entry', 'no date', unplanned('plannedOn')],
    ['no entry', 'no windows', unplanned('windows')],
  ),
  ...rowsOf(
    'interests-not-stated',
    ['silent', 'neither who paid nor who gains', disclosed(' ', '')],
    ['silent', 'not who paid', disclosed('', 'none')],
    ['silent', 'not who gains', disclosed('none', '')],
    ['not found', 'both', sound],
  ),
  ...rowsOf(
    'seller-interest',
    ['minor', 'the maker paid', disclosed('the manufacturer', 'none'), { direction: 'towards the claim' }],
    ['minor', 'the reader sells it', disclosed('the owners', 'one reader sells the device')],
    ['minor', 'in another language of the trade', disclosed('der Hersteller', 'keine')],
    ['not found', 'the owners paid', disclosed('the owners of the walls', 'none')],
    ['not found', 'none; the maker had no part', disclosed('none; the maker was not involved', 'none')],
    ['no entry', 'nothing is stated', disclosed('', '')],
  ),
  ...rowsOf(
    'turns-without-one',
    ['serious', 'three against three, worthwhile, and undecided without one', threeAgainstThree, { value: 2 / 6 }],
    ['minor', 'an interval that just excludes zero, one step from undecided', barely.trial, { value: barely.share }],
    ['minor', 'an interval just beyond the margin', barelyMore.trial, { value: barelyMore.share }],
    ['not found', 'an interval far beyond it', sound, { value: 0 }],
    ['no entry', 'no interval', oneAndOne],
  ),
  ...rowsOf(
    'turns-without-reader',
    ['serious', 'one of two readers saw all of it', twoReaders(0, -8), { value: 0.5 }],
    ['minor', 'one saw half as much as the other', twoReaders(-2, -8), { value: 0.5 }],
    ['not found', 'both saw it', twoReaders(-4, -4), { value: 0 }],
    ['no entry', 'one reader', sound],
  ),
  ...rowsOf(
    'turns-among-blind',
    ['serious', 'nothing among blind readings', halfBlind(0, -8), { direction: 'towards the claim' }],
    ['minor', 'less among blind readings', halfBlind(-2, -8)],
    ['not found', 'as much among blind readings', halfBlind(-4, -4)],
    ['no entry', 'all are blind', sound],
    ['no entry', 'none is blind', reading((one) => ({ ...one, knewArm: 'yes' }))],
  ),
  ...rowsOf(
    'turns-with-choices',
    ['not found', 'all of three', sound, { value: 1 }],
    ['not found', 'three of four', sound, { value: 0.75, change: choices(3, 4), within: 'choicesKept' }],
    ['minor', 'five of seven', sound, { value: 5 / 7, change: choices(5, 7), beyond: 'choicesKept' }],
    ['minor', 'none of one', sound, { value: 0, change: choices(0, 1) }],
    ['no entry', 'no interval', oneAndOne],
  ),
];
