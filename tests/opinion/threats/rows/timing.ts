import { steadyBefore } from '../../../../src/drying/index.js';
import type { Injection, Trial } from '../../../../src/index.js';
import { addDays } from '../../../../src/plain/days.js';
import { madeTrial, soundProtocol } from '../../../helpers/made-trial.js';
import { noise, stepped, trialOfTwo, visitsOf } from '../../../helpers/trial-of-two.js';
import { type Row, rowsOf } from './row.js';
import {
  isTreated,
  liftFor,
  numberOf,
  oneAgainstFour,
  planned,
  solve,
  sound,
  ten,
  unplanned,
  untreatedChanges,
  visited,
  walling,
  walls,
  wallsInArms,
  withEvents,
  withHighStations,
} from './trials.js';

const treatedOnly = madeTrial(walls.filter(({ arm }) => arm === 'treated'));
const untreatedOnly = madeTrial(walls.filter(({ arm }) => arm !== 'treated'));
const noWindows = unplanned('windows');

interface Plastering {
  /** So many of ten treated and of ten untreated walls. */
  readonly renewed?: readonly [number, number];
  readonly stripped?: readonly [number, number];
  /** The day of the untreated walls. */
  readonly later?: string;
}

function plastered({ renewed = [0, 0], stripped = [0, 0], later = '2024-08-01' }: Plastering) {
  const works = [
    ['replastered', renewed],
    ['plaster-stripped', stripped],
  ] as const;
  const events = works.flatMap(([kind, counts]) =>
    (['T', 'U'] as const).flatMap((arm, side) =>
      Array.from(
        { length: counts[side] ?? 0 },
        (_, at) => [side === 0 ? '2024-08-01' : later, kind, `${arm}${at + 1}`] as const,
      ),
    ),
  );
  return withEvents(events, ten);
}

/** Ten walls of an arm, injected on the day of the treatment. */
function dosed(of: (at: number) => Pick<Injection, 'litres_per_m' | 'plannedLitres_per_m' | 'lot'>, arm = 'T'): Trial {
  const injections = Array.from({ length: 10 }, (_, at): Injection => {
    const origin = { file: 'injection.csv', row: at + 2 };
    return { date: '2024-06-10', wall: `${arm}${at + 1}`, ...of(at), origin };
  });
  return { ...ten, injections };
}

const passes = dosed((at) => ({ litres_per_m: at < 5 ? 0.5 : 1 })).injections ?? [];
const inPasses: Trial = { ...ten, injections: [...passes, ...passes.filter(({ litres_per_m }) => litres_per_m < 1)] };

const windows = (before: readonly [string, string], after: readonly [string, string], trial = sound) =>
  planned({ windows: { before: { from: before[0], to: before[1] }, after: { from: after[0], to: after[1] } } }, trial);
const halfShared = [
  ['2024-03-01', '2024-05-31'],
  ['2025-04-01', '2025-06-30'],
] as const;
const lessShared = [
  ['2024-01-01', '2024-08-31'],
  ['2025-04-01', '2025-11-30'],
] as const;

const kindsOfEvent = [
  'heating',
  'ventilation',
  'leak',
  'flood',
  'sensor-moved',
  'instrument-changed',
  'other',
] as const;

// How far walls moved where nothing should move them; the treated or nearer ones are lifted until Welch's p-value is as told.
const [ownT, ownU] = [
  [0.12, -0.2, 0.31, -0.05, 0.22, -0.3],
  [-0.1, 0.25, -0.22, 0.08, -0.31, 0.2],
];
const own = (wall: string, list: readonly number[]) => list[numberOf(wall) - 1] ?? 0;
const p = { within: 0.0301, beyond: 0.0299, plainWithin: 0.0101, plainBeyond: 0.0099 };

const drifted = (lift: number) =>
  visited(['2024-03-20', '2024-04-20'], (wall, day) => {
    if (day < '2024-04') return 0.1 * numberOf(wall);
    return 0.1 * numberOf(wall) + (isTreated(wall) ? own(wall, ownT) + lift : own(wall, ownU));
  });
const driftAt = (pValue: number) => drifted(liftFor(pValue, ownT, ownU));
const high = (lift: number) => withHighStations((wall) => (isTreated(wall) ? own(wall, ownT) + lift : own(wall, ownU)));
const highAt = (pValue: number) => high(liftFor(pValue, ownT, ownU));

const two = untreatedChanges.slice(0, 3);
const others = untreatedChanges.slice(3);
/** Three untreated walls fitted with a sham that lifts their change, and three plain ones. */
const shammed = (lift: number) =>
  madeTrial(
    walls.map((wall, at) => {
      if (at >= 9) return { ...wall, arm: 'plain' };
      return at >= 6 ? { ...wall, after: (wall.after ?? 0) + lift } : wall;
    }),
    { protocol: { ...soundProtocol, arms: [...soundProtocol.arms, { arm: 'plain', role: 'control' }] } },
  );
const shamAt = (pValue: number) => shammed(liftFor(pValue, two, others));
/** Three untreated walls that the plan leaves out of the comparison, lifted. */
const innerWalls = (lift: number) =>
  madeTrial(
    walls.map((wall, at) => (at >= 9 ? { ...wall, arm: 'inner', after: (wall.after ?? 0) + lift } : wall)),
    {
      protocol: {
        ...soundProtocol,
        arms: [...soundProtocol.arms, { arm: 'inner', role: 'control' }],
        compare: { treated: ['treated'], untreated: ['sham'] },
      },
    },
  );
const innerAt = (pValue: number) => innerWalls(liftFor(pValue, others, two));
/** U1 to U3 stand beside treated walls, and change by `lift` more. */
const besideTreated = (lift: number) =>
  madeTrial(
    walls.map((wall) => {
      if (isTreated(wall.wall) || numberOf(wall.wall) > 3) return wall;
      return { ...wall, after: (wall.after ?? 0) + lift, neighbours: [`T${numberOf(wall.wall)}`] };
    }),
  );
const besideAt = (pValue: number) => besideTreated(liftFor(pValue, two, others));

// Eight visits before, ten days apart.
const days = Array.from({ length: 8 }, (_, at) => addDays('2024-03-05', 10 * at));
const times = days.map((_, at) => 10 * at);
const rest = (wall: string, at: number) => 0.1 * Math.sin(2.4 * at + 3 * numberOf(wall) + (isTreated(wall) ? 1 : 0));
const trending = (perDay: number, trial = sound) =>
  visited(days, (wall, day) => perDay * 10 * days.indexOf(day) + rest(wall, days.indexOf(day)), trial);
const restCurves = walls.map(({ wall }) => ({ times_d: times, moisture: times.map((_, at) => 8 + rest(wall, at)) }));
/** By so many points from the first visit to the last, by the line through the readings. */
const movedBefore = (points: number) => trending(points / 70 - steadyBefore(restCurves).trendPer30Days.estimate / 30);
/** Walls that rise together by as much as gives their trend this p-value, in a plan without a margin. */
const unsteadyAt = (pValue: number) => {
  const pOf = (perDay: number) =>
    steadyBefore(
      restCurves.map(({ times_d, moisture }) => ({
        times_d,
        moisture: moisture.map((value, at) => value + perDay * (times_d[at] ?? Number.NaN)),
      })),
    ).trendPer30Days.pValue;
  return planned({}, { ...trending(solve(pOf, pValue, 0, 1)), protocol: unplanned('margin').protocol });
};

/** The margin is exactly what the trend comes to over the window. */
const marginOfTrend: Pick<Row, 'change'> = {
  change: ({ facts, numbers }) => {
    const { steady } = facts.drying;
    const margin = (Math.abs(steady?.trendPer30Days.estimate ?? 0) * (steady?.window_d ?? 0)) / 30;
    return { numbers, facts: { ...facts, trial: planned({ margin }, facts.trial) } };
  },
};

const driftingSeries = (perMonth: number) =>
  trialOfTwo(visitsOf(16, (isAfter, days_, at) => (isAfter ? -4 : (perMonth * days_) / 30) + 0.1 * (noise[at] ?? 0)));
const steady = trialOfTwo(stepped(-4));
const jumped = trialOfTwo(
  visitsOf(16, (isAfter, days_, at) => (isAfter ? -4 : days_ > 150 ? -1 : 0) + 0.1 * (noise[at] ?? 0)),
);
/** Air that went up when the treatment came; the treated wall follows it by `follows`, and the treatment does `step`. */
const inWeather = (follows: number, step: number, scatter: number) => {
  const air = (at: number) => Math.sin(at) + (at < 16 ? 0 : 3);
  const visits = visitsOf(
    16,
    (isAfter, _days, at) => follows * air(at) + (isAfter ? step : 0) + scatter * (noise[at] ?? 0),
  );
  const climate = visits.flatMap(([day], at) =>
    // Dry air of the same warmth: what lacks to saturation is what the wall can give off to.
    Array.from({ length: 31 }, (_, back) => ({
      ...{
        time: addDays(day, back - 15),
        place: 'the garden',
        temperature_c: 15,
        relative_humidity_pct: 70 - 10 * air(at),
      },
      origin: { file: 'climate.csv', row: 2 },
    })),
  );
  const byDay = new Map(climate.map((one) => [one.time, one]));
  return trialOfTwo(visits, { climate: [...byDay.values()].sort((one, other) => (one.time < other.time ? -1 : 1)) });
};

const upwards = { ...soundProtocol.outcome, better: 'higher' as const };

const plainArms = {
  protocol: {
    ...soundProtocol,
    arms: [
      { arm: 'treated', role: 'treated' as const },
      { arm: 'plain', role: 'control' as const },
    ],
  },
};

export const timingRows: readonly Row[] = [
  ...rowsOf('windows-absent', ['fatal', 'no windows', noWindows], ['not found', 'both windows', sound]),
  ...rowsOf(
    'treatment-day-not-stated',
    [
      'silent',
      'one treated wall without its day',
      walling((wall) => {
        const { treatedOn: _, ...more } = wall;
        return wall.wall === 'T3' ? more : wall;
      }),
    ],
    [
      'not found',
      'an untreated wall without a day',
      walling((wall) => {
        const { treatedOn: _, ...more } = wall;
        return wall.wall === 'U3' ? more : wall;
      }),
    ],
    ['no entry', 'no treated walls', untreatedOnly],
  ),
  ...rowsOf(
    'windows-in-different-months',
    ['not found', 'two of four months shared', windows(...halfShared), { within: 'sharedMonths' }],
    ['minor', 'five of eleven months shared', windows(...lessShared), { beyond: 'sharedMonths' }],
    ['serious', 'the same with one treated wall', windows(...lessShared, oneAgainstFour)],
    ['minor', 'the same with two walls in an arm', windows(...lessShared, madeTrial(wallsInArms(2, 4)))],
    ['not found', 'the same months with one treated wall', oneAgainstFour],
    ['no entry', 'no windows', noWindows],
  ),
  ...rowsOf(
    'event-in-one-arm',
    ...kindsOfEvent.map(
      (kind) =>
        [
          'minor',
          `${kind} at one wall of ten`,
          withEvents([['2024-08-01', kind, 'T1']], ten),
          { within: 'struckShare' },
        ] as const,
    ),
    [
      'serious',
      'a leak at two walls of ten',
      withEvents(
        [
          ['2024-08-01', 'leak', 'U1'],
          ['2024-08-02', 'leak', 'U2'],
        ],
        ten,
      ),
      { beyond: 'struckShare' },
    ],
    [
      'minor',
      'a leak twice at one wall',
      withEvents(
        [
          ['2024-08-01', 'leak', 'U1'],
          ['2024-08-02', 'leak', 'U1'],
        ],
        ten,
      ),
    ],
    ['minor', 'in the after window', withEvents([['2025-04-01', 'leak', 'U1']])],
    ['minor', 'on its last day', withEvents([['2025-05-31', 'leak', 'U1']])],
    ['not found', 'the day after', withEvents([['2025-06-01', 'leak', 'U1']])],
    ['minor', 'on the first day of the before window', withEvents([['2024-03-01', 'leak', 'U1']])],
    ['not found', 'the day before it', withEvents([['2024-02-29', 'leak', 'U1']])],
    [
      'not found',
      'plaster stripped at one wall, which has a search of its own',
      withEvents([['2024-08-01', 'plaster-stripped', 'U1']]),
    ],
    [
      'not found',
      'at a wall of either arm',
      withEvents([
        ['2024-08-01', 'leak', 'U1'],
        ['2024-08-02', 'leak', 'T2'],
      ]),
    ],
    ['not found', 'at every wall', withEvents([['2024-08-01', 'flood']])],
    ['not found', 'the installation', withEvents([['2024-06-10', 'installed', 'T1']])],
    ['open', 'no diary', withEvents([])],
  ),
  ...rowsOf(
    'plaster-unlike',
    [
      'minor',
      'replastered at one treated wall of ten',
      plastered({ renewed: [1, 0] }),
      { value: 0.1, within: 'plasterApart' },
    ],
    ['serious', 'at two of ten', plastered({ renewed: [2, 0] }), { value: 0.2, beyond: 'plasterApart' }],
    ['serious', 'at two untreated walls', plastered({ renewed: [0, 2] }), { value: -0.2 }],
    ['minor', 'stripped at one untreated wall', plastered({ stripped: [0, 1] }), { value: -0.1 }],
    ['serious', 'renewed alike and stripped unlike', plastered({ renewed: [5, 5], stripped: [1, 5] }), { value: -0.4 }],
    ['not found', 'at five of either, on one day', plastered({ renewed: [5, 5] }), { value: 0 }],
    [
      'not found',
      '30 days apart',
      plastered({ renewed: [5, 5], later: '2024-08-31' }),
      { within: 'plasterDaysApart_d' },
    ],
    [
      'minor',
      '31 days apart',
      plastered({ renewed: [5, 5], later: '2024-09-01' }),
      { value: -31, beyond: 'plasterDaysApart_d' },
    ],
    ['not found', 'at every wall', withEvents([['2024-08-01', 'replastered']], ten), { value: 0 }],
    ['no entry', 'after the last day of the after window', withEvents([['2025-06-01', 'replastered', 'T1']], ten)],
    ['no entry', 'before the first of the before window', withEvents([['2024-02-29', 'plaster-stripped', 'T1']], ten)],
    ['no entry', 'no such work', ten],
  ),
  ...rowsOf(
    'dose-below-planned',
    ['not found', 'all of it', dosed(() => ({ litres_per_m: 1.5, plannedLitres_per_m: 1.5 })), { value: 1 }],
    [
      'not found',
      'nine tenths at one wall',
      dosed((at) => ({ litres_per_m: at === 1 ? 0.9 : 1, plannedLitres_per_m: 1 })),
      { value: 0.9, within: 'doseOfPlanned' },
    ],
    [
      'minor',
      'less than that',
      dosed((at) => ({ litres_per_m: at === 1 ? 0.89 : 1, plannedLitres_per_m: 1 })),
      { value: 0.89, beyond: 'doseOfPlanned', direction: 'away from the claim' },
    ],
    [
      'minor',
      '1.7 litres where two were planned',
      dosed((at) => ({ litres_per_m: at === 1 ? 1.7 : 2, plannedLitres_per_m: 2 })),
      { value: 0.85 },
    ],
    ['no entry', 'no dose was planned', dosed(() => ({ litres_per_m: 1.5 }))],
    ['no entry', 'nothing was injected', ten],
  ),
  ...rowsOf(
    'doses-unlike',
    [
      'not found',
      '1 to 1.49',
      dosed((at) => ({ litres_per_m: at === 1 ? 1.49 : 1 })),
      { value: 1.49, within: 'dosesUnlike' },
    ],
    ['minor', '1 to 1.5', dosed((at) => ({ litres_per_m: at === 1 ? 1.5 : 1 })), { value: 1.5, beyond: 'dosesUnlike' }],
    ['not found', 'two passes of a half and one of a whole', inPasses, { value: 1 }],
    ['no entry', 'an untreated wall alone', dosed(() => ({ litres_per_m: 1 }), 'U')],
  ),
  ...rowsOf(
    'lots-differ',
    ['not found', 'one lot', dosed(() => ({ litres_per_m: 1, lot: 'A' })), { value: 1 }],
    ['minor', 'two', dosed((at) => ({ litres_per_m: 1, lot: at < 5 ? 'A' : 'B' })), { value: 2 }],
    ['no entry', 'no lot is stated', dosed(() => ({ litres_per_m: 1 }))],
  ),
  ...rowsOf(
    'no-sham',
    [
      'minor',
      'six untreated walls without',
      madeTrial(wallsInArms(6, 6, 'plain'), plainArms),
      { direction: 'towards the claim' },
    ],
    ['not found', 'six untreated walls with a sham', sound],
    ['no entry', 'no untreated wall', treatedOnly],
  ),
  ...rowsOf(
    'not-steady-before',
    ['not found', 'eight visits at rest', trending(0)],
    // Seventy days from the first visit to the last, and a margin of 2 points.
    [
      'not found',
      'a fall of 1.99 points, which a season may bring',
      movedBefore(-1.99),
      { value: (-1.99 * 30) / 70, within: 'steadyMargins' },
    ],
    ['minor', 'a fall of 2.01 points', movedBefore(-2.01), { value: (-2.01 * 30) / 70, beyond: 'steadyMargins' }],
    ['minor', 'a fall of exactly the margin', movedBefore(-2), marginOfTrend],
    ['not found', 'a rise of 1.99 points', movedBefore(1.99), { within: 'steadyMargins' }],
    ['minor', 'a rise of 2.01 points', movedBefore(2.01), { beyond: 'steadyMargins' }],
    [
      'minor',
      'a fall, and the plan states no margin',
      planned({}, { ...trending(-0.02), protocol: unplanned('margin').protocol }),
    ],
    [
      'serious',
      'drying already, and one untreated wall to compare with',
      trending(-0.02, madeTrial(walls.slice(0, 7))),
    ],
    ['not found', 'and two of them', trending(-0.02, madeTrial(walls.slice(0, 8)))],
    ['not found', 'a rise without a margin, p just above 0.03', unsteadyAt(0.0301), { within: 'alarm' }],
    ['minor', 'a rise without a margin, p just below 0.03', unsteadyAt(0.0299), { beyond: 'alarm' }],
    ['open', 'one visit', sound],
    ['open', 'three visits', visited(days.slice(0, 3), (wall, day) => rest(wall, days.indexOf(day)))],
  ),
  ...rowsOf(
    'placebo-dates',
    ['not found', 'p just above 0.03', driftAt(p.within), { pValue: p.within, within: 'alarm' }],
    ['minor', 'p just below 0.03', driftAt(p.beyond), { pValue: p.beyond, beyond: 'alarm' }],
    ['minor', 'p just above 0.01', driftAt(p.plainWithin), { pValue: p.plainWithin, within: 'plainAlarm' }],
    ['serious', 'p just below 0.01', driftAt(p.plainBeyond), { pValue: p.plainBeyond, beyond: 'plainAlarm' }],
    ['serious', 'treated walls were falling', drifted(-1), { direction: 'towards the claim' }],
    ['serious', 'treated walls were rising', drifted(1), { direction: 'away from the claim' }],
    [
      'serious',
      'treated walls were rising where higher is better',
      planned({ outcome: upwards }, drifted(1)),
      { direction: 'towards the claim' },
    ],
    ['open', 'one day before', sound],
    ['no entry', 'a series, which has searches of its own', steady],
  ),
  ...rowsOf(
    'out-of-reach',
    ['not found', 'p just above 0.03', highAt(p.within), { pValue: p.within, within: 'alarm' }],
    ['minor', 'p just below 0.03', highAt(p.beyond), { pValue: p.beyond, beyond: 'alarm' }],
    ['serious', 'p just below 0.01', highAt(p.plainBeyond), { pValue: p.plainBeyond, beyond: 'plainAlarm' }],
    ['serious', 'treated walls fell up there too', high(-1), { direction: 'towards the claim' }],
    ['serious', 'treated walls rose up there', high(1), { direction: 'away from the claim' }],
    [
      'serious',
      'treated walls rose up there where higher is better',
      planned({ outcome: upwards }, high(1)),
      { direction: 'towards the claim' },
    ],
    ['open', 'the plan names no height', sound],
  ),
  ...rowsOf(
    'sham-against-control',
    ['not found', 'p just above 0.03', shamAt(p.within), { pValue: p.within, within: 'alarm' }],
    ['minor', 'p just below 0.03', shamAt(p.beyond), { pValue: p.beyond, beyond: 'alarm' }],
    ['serious', 'p just below 0.01', shamAt(p.plainBeyond), { pValue: p.plainBeyond, beyond: 'plainAlarm' }],
    ['serious', 'a sham that dries hides part of the effect', shammed(-5), { direction: 'away from the claim' }],
    ['serious', 'a sham that wets makes one', shammed(5), { direction: 'towards the claim' }],
    [
      'serious',
      'and the other way round where higher is better',
      planned({ outcome: upwards }, shammed(5)),
      { direction: 'away from the claim' },
    ],
    [
      'open',
      'one wall without a sham',
      madeTrial(
        walls.slice(0, 11).map((wall, at) => (at === 10 ? { ...wall, arm: 'plain' } : wall)),
        { protocol: shammed(0).protocol },
      ),
    ],
    ['no entry', 'every untreated wall has a sham', sound],
  ),
  ...rowsOf(
    'untreated-outside',
    ['not found', 'p just above 0.03', innerAt(p.within), { pValue: p.within, within: 'alarm' }],
    ['minor', 'p just below 0.03', innerAt(p.beyond), { pValue: p.beyond, beyond: 'alarm' }],
    ['serious', 'p just below 0.01', innerAt(p.plainBeyond), { pValue: p.plainBeyond, beyond: 'plainAlarm' }],
    ['serious', 'they fell', innerWalls(-8), { direction: 'towards the claim' }],
    ['serious', 'they rose', innerWalls(8), { direction: 'away from the claim' }],
    [
      'open',
      'one such wall',
      madeTrial(
        walls.map((wall, at) => (at === 11 ? { ...wall, arm: 'inner' } : wall)),
        { protocol: innerWalls(0).protocol },
      ),
    ],
    ['no entry', 'every untreated wall is compared', sound],
  ),
  ...rowsOf(
    'carry-over',
    ['not found', 'p just above 0.03', besideAt(p.within), { pValue: p.within, within: 'alarm' }],
    ['minor', 'p just below 0.03', besideAt(p.beyond), { pValue: p.beyond, beyond: 'alarm' }],
    ['serious', 'p just below 0.01', besideAt(p.plainBeyond), { pValue: p.plainBeyond, beyond: 'plainAlarm' }],
    ['serious', 'neighbours dried with the treated walls', besideTreated(-5), { direction: 'away from the claim' }],
    ['serious', 'neighbours became wetter', besideTreated(5), { direction: 'towards the claim' }],
    ['open', 'nothing is said of neighbours', sound],
  ),
  ...rowsOf(
    'drift-before-treatment',
    ['not found', 'they kept their distance', steady],
    ['serious', 'the treated wall was falling', driftingSeries(-0.3), { direction: 'towards the claim' }],
    ['serious', 'the treated wall was rising', driftingSeries(0.3), { direction: 'away from the claim' }],
    ['no entry', 'no series', sound],
  ),
  ...rowsOf(
    'placebo-alarms',
    ['not found', 'nothing happened', steady],
    ['serious', 'the treated wall fell in the summer before', jumped],
    ['serious', 'p just below 0.05', steady, { pValue: 0.0499, change: placebo(0.0499) }],
    ['not found', 'p just above 0.05', steady, { pValue: 0.0501, change: placebo(0.0501) }],
    ['no entry', 'no series', sound],
  ),
  ...rowsOf(
    'weather-would-do',
    ['serious', 'the air alone moved the treated wall', inWeather(-1, 0, 0.2)],
    ['not found', 'the treatment moved it', inWeather(0, -3, 0.05)],
    ['not found', 'nothing moved it', inWeather(0, 0, 0.2)],
    ['no entry', 'no weather on record', steady],
  ),
  ...rowsOf(
    'instrument-changed',
    ['minor', 'of all walls', withEvents([['2024-08-01', 'instrument-changed']])],
    ['minor', 'of one wall', withEvents([['2024-08-01', 'instrument-changed', 'U1']])],
    ['no entry', 'after the trial', withEvents([['2025-06-01', 'instrument-changed']])],
    ['no entry', 'not at all', sound],
  ),
];

/** The series with another p-value of its placebo dates. */
function placebo(placeboPValue: number): NonNullable<Row['change']> {
  return (grounds) => {
    const { series } = grounds.facts;
    if (series?.checks === undefined) throw new Error('the series has no checks');
    const checks = { ...series.checks, placeboPValue };
    return { ...grounds, facts: { ...grounds.facts, series: { ...series, checks } } };
  };
}
