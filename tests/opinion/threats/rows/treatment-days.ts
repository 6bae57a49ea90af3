import type { Reading, Trial } from '../../../../src/index.js';
import { addDays } from '../../../../src/plain/days.js';
import { madeTrial, wallsWithChanges } from '../../../helpers/made-trial.js';
import { type Row, rowsOf } from './row.js';
import {
  higher,
  isAfter,
  isTreated,
  lost,
  numberOf,
  oneAgainstFour,
  planned,
  reading,
  sound,
  unplanned,
  untreatedChanges,
  visited,
  walling,
  walls,
} from './trials.js';

const names = walls.map(({ wall }) => wall);
const nothingRead = madeTrial(lost(lost(walls, names), names, 'before'));
const noWindows = unplanned('windows');
/** Nothing worthwhile came of the treatment, so that what hides an effect weighs. */
const nullTrial = madeTrial(wallsWithChanges([0.2, -0.3, 0.1, -0.1, 0.3, -0.2], untreatedChanges));

const treatedOn = (dayOf: (number: number) => string, trial = sound) =>
  walling((wall) => (isTreated(wall.wall) ? { ...wall, treatedOn: dayOf(numberOf(wall.wall)) } : wall), trial);

// Eight visits before: 48 readings of the six treated walls.
const days = Array.from({ length: 8 }, (_, at) => addDays('2024-03-05', 10 * at));
const oftenBefore = visited(days, (wall, day) => 0.1 * Math.sin(2.4 * days.indexOf(day) + numberOf(wall)));
const dayOfVisit = (visit: number) => days[visit] ?? '';

/** Treated so many days before the reading of 10 April 2025. */
const readAfter = (days: number, trial = sound) => treatedOn(() => addDays('2025-04-10', -days), trial);

const firstDay = '2024-06-10';
/** From the first to the last so many days. */
const treatedIn = (days: number, trial = sound) =>
  treatedOn((number) => (number === 4 ? addDays(firstDay, days) : firstDay), trial);
const ownWindows = (trial: Trial) =>
  walling(
    (wall) => (isTreated(wall.wall) && sound.protocol.windows ? { ...wall, windows: sound.protocol.windows } : wall),
    trial,
  );

const readLater = (days: number, isMeant: (one: Reading) => boolean) =>
  reading((one) => (isMeant(one) ? { ...one, date: addDays(one.date, days) } : one));
const treatedLater = (days: number) => readLater(days, (one) => isAfter(one) && isTreated(one.wall));

export const treatmentDayRows: readonly Row[] = [
  ...rowsOf(
    'read-after-treatment',
    ['not found', 'treated when all had been read', oftenBefore, { direction: 'away from the claim' }],
    [
      'minor',
      'treated on the day of the last visit but one reading of 48',
      treatedOn((number) => (number === 1 ? dayOfVisit(7) : firstDay), oftenBefore),
      { value: 1 },
    ],
    ['not found', 'treated the day after the last visit', treatedOn(() => addDays(dayOfVisit(7), 1), oftenBefore)],
    [
      'minor',
      '23 of 48 readings',
      treatedOn((number) => dayOfVisit(number === 1 ? 5 : 4), oftenBefore),
      { value: 23, within: 'beforeLost' },
    ],
    ['serious', '24 of 48 readings', treatedOn(() => dayOfVisit(4), oftenBefore), { value: 24, beyond: 'beforeLost' }],
    ['no entry', 'nothing was read', nothingRead],
  ),
  ...rowsOf(
    'after-too-early',
    // 2 % of 0.33 m of 1700 kg/m³ is 11.22 kg/m²; two faces give 2 × 25e-9 × 100 Pa × 86 400 s = 0.432 a day; four times as long.
    ['not found', '104 days, of 103.9', readAfter(104), { value: 104 / ((4 * 11.22) / 0.432), within: 'fallingStage' }],
    [
      'minor',
      '103 days, and worthwhile for all that',
      readAfter(103),
      { value: 103 / ((4 * 11.22) / 0.432), direction: 'away from the claim', beyond: 'fallingStage' },
    ],
    ['serious', '103 days, and nothing worthwhile found', readAfter(103, nullTrial)],
    ['not found', '104 days, and nothing worthwhile found', readAfter(104, nullTrial)],
    ['minor', 'one wall of six too early', treatedOn((number) => (number === 4 ? '2025-02-01' : firstDay))],
    ['open', 'no margin', unplanned('margin')],
    ['open', 'higher is better', higher(sound)],
    ['open', 'an index', planned({ outcome: { ...sound.protocol.outcome, unit: 'digits' } })],
    ['no entry', 'no day of treatment', walling(({ treatedOn: _, ...wall }) => wall)],
    ['no entry', 'no windows', noWindows],
  ),
  ...rowsOf(
    'treatment-spread',
    ['not found', 'all on one day', sound, { value: 0 }],
    ['not found', '60 days apart', treatedIn(60), { value: 60, within: 'spreadOfTreatment_d' }],
    [
      'minor',
      '61 days apart',
      treatedIn(61),
      { value: 61, beyond: 'spreadOfTreatment_d', direction: 'away from the claim' },
    ],
    ['minor', '180 days apart', treatedIn(180), { value: 180, within: 'longSpreadOfTreatment_d' }],
    ['serious', '181 days apart', treatedIn(181), { value: 181, beyond: 'longSpreadOfTreatment_d' }],
    ['not found', '181 days apart, in windows of their own', ownWindows(treatedIn(181)), { value: 181 }],
    ['no entry', 'one treated wall', oneAgainstFour],
    ['no entry', 'no day of treatment', walling(({ treatedOn: _, ...wall }) => wall)],
  ),
  ...rowsOf(
    'days-unlike',
    ['not found', 'on the same days', sound, { value: 0 }],
    ['not found', 'treated walls 7 days later after', treatedLater(7), { value: 7, within: 'daysApart_d' }],
    ['minor', '8 days later', treatedLater(8), { value: 8, beyond: 'daysApart_d' }],
    ['minor', '8 days earlier', treatedLater(-8), { value: -8 }],
    ['minor', '21 days later', treatedLater(21), { value: 21, within: 'farApart_d' }],
    ['serious', '22 days later', treatedLater(22), { value: 22, beyond: 'farApart_d' }],
    [
      'serious',
      'untreated walls 22 days later before',
      readLater(22, (one) => !isAfter(one) && !isTreated(one.wall)),
      { value: -22 },
    ],
    ['not found', 'all walls 22 days later after', readLater(22, isAfter), { value: 0 }],
    ['no entry', 'no windows', noWindows],
  ),
];
