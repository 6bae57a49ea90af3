import type { Belief, Reading, Trial } from '../../../../src/index.js';
import { logged, recordOf, sensors, whole } from '../../../helpers/logged-trial.js';
import { madeTrial, soundProtocol } from '../../../helpers/made-trial.js';
import { noise, stepped, trialOfTwo, visitsOf } from '../../../helpers/trial-of-two.js';
import { type Row, rowsOf } from './row.js';
import {
  amountOf,
  byMeter,
  cored,
  firstAfter,
  higher,
  isAfter,
  isTreated,
  liftFor,
  lost,
  measured,
  numberOf,
  planned,
  reading,
  sound,
  ten,
  walls,
  withEvents,
} from './trials.js';

const nothingAfter = madeTrial(
  lost(
    walls,
    walls.map(({ wall }) => wall),
  ),
);
const sensorTrial = logged(sensors.map(whole));

const knew = (knewArm: 'yes' | 'no' | 'unsure') => (one: Reading) => ({ ...one, knewArm });
const nameless = ({ reader: _, ...one }: Reading): Reading => one;
const unnoted = ({ knewArm: _, ...one }: Reading): Reading => one;
const by = (reader: string) => (one: Reading) => ({ ...one, reader });
const notBlinded = { blinding: { ...soundProtocol.blinding, readers: false } };

/** Walls of one arm, so many of whose ten after readings another reader took. */
const changedOn = (count: number, side: 'treated' | 'untreated' | 'both') =>
  reading(
    (one) =>
      isAfter(one) && numberOf(one.wall) <= count && (side === 'both' || isTreated(one.wall) === (side === 'treated'))
        ? by('R2')(one)
        : one,
    ten,
  );

/** One reader notes a guess of each of twelve walls, so many of them right. */
const guessed = (right: number): Trial => ({
  ...sound,
  beliefs: sound.walls.map(({ wall, arm }, at): Belief => {
    const believedArm = at < right ? arm : arm === 'treated' ? 'sham' : 'treated';
    return {
      date: '2024-12-01',
      person: 'R1',
      role: 'reader',
      wall,
      believedArm,
      origin: { file: 'blinding.csv', row: at + 2 },
    };
  }),
});

/** Somebody else calls every wall treated when all is read: a second test, which finds nothing. */
const guessedLateToo = (right: number): Trial => {
  const trial = guessed(right);
  const late = trial.beliefs.map((one) => ({ ...one, person: 'R2', date: '2025-12-01', believedArm: 'treated' }));
  return { ...trial, beliefs: [...trial.beliefs, ...late] };
};

// By how much the knowing reader differs from the blind one at each wall.
const [ownT, ownU] = [
  [0.12, -0.2, 0.31, -0.05, 0.22, -0.3],
  [-0.1, 0.25, -0.22, 0.08, -0.31, 0.2],
];
/** Every wall read again after by somebody who knew, treated walls differing by `lift` more. */
const knowingBeside = (lift: number): Trial => ({
  ...sound,
  readings: sound.readings.flatMap((one) => {
    if (!isAfter(one)) return [one];
    const own = (isTreated(one.wall) ? ownT : ownU)[numberOf(one.wall) - 1] ?? 0;
    const value = measured(amountOf(one) + own + (isTreated(one.wall) ? lift : 0));
    return [one, { ...one, knewArm: 'yes' as const, reader: 'R2', value }];
  }),
});
const knowingAt = (pValue: number) => knowingBeside(liftFor(pValue, ownT, ownU));

/** A microwave meter read beside the cores, with a difference of its own. */
const beside = (weighed: number, held: number, kind: 'microwave' | 'humidity-probe' = 'microwave'): Trial => {
  const shift = (one: Reading, by_: number) =>
    measured(amountOf(one) + (isAfter(one) && isTreated(one.wall) ? by_ : 0));
  const readings = sound.readings.flatMap((one) => [
    { ...one, value: shift(one, 4 + weighed) },
    { ...one, instrument: 'mw', value: shift(one, 4 + held) },
  ]);
  const instruments = soundProtocol.instruments.map((one) =>
    one.instrument === 'mw' ? { instrument: 'mw', kind } : one,
  );
  return planned({ instruments }, { ...sound, readings });
};

const full = { oven_c: 105, stopRule: 'under 0.1 % in a day', lastChange_pct: 0.05 };
const ovens = (before: number, after: number) =>
  cored([
    { ...full, oven_c: before },
    { ...full, oven_c: after },
  ]);
/** Each arm in a batch of its own, but for the first so many cores, half of each arm as far as it goes. */
const onNewPlaster = (day: string) => withEvents([[day, 'replastered']], byMeter());
const batchesOfArms = (together: number) => {
  const shared = new Set<string>();
  const few = [...ten.readings].sort((one, other) => numberOf(one.wall) - numberOf(other.wall)).slice(0, together);
  for (const { wall, date } of few) shared.add(`${wall} ${date}`);
  return cored([full, full, full], {
    batchOf: ({ wall, date }) => (shared.has(`${wall} ${date}`) ? 'B3' : isTreated(wall) ? 'B1' : 'B2'),
    trial: ten,
  });
};
const coredAlone = cored(
  ten.readings.map(() => full),
  {
    batchOf: ({ wall, date }) => `B${2 * numberOf(wall) - (isTreated(wall) ? 1 : 0) + (date > '2025' ? 20 : 0)}`,
    trial: ten,
  },
);
const coredOnOwnDays = {
  ...batchesOfArms(0),
  cores: batchesOfArms(0).cores.map((core) =>
    isTreated(core.wall) ? core : { ...core, date: core.date.replace('-10', '-11') },
  ),
};
const byArm = (treated: number, untreated: number) =>
  cored(
    [
      { ...full, oven_c: treated },
      { ...full, oven_c: untreated },
    ],
    {
      batchOf: ({ wall }) => (isTreated(wall) ? 'B1' : 'B2'),
    },
  );
const of = (material: string, trial: Trial): Trial => ({
  ...trial,
  walls: trial.walls.map((wall) => ({ ...wall, material })),
});
const gypsum = 'brick, gypsum plaster';
// A tenth of the material is gypsum of 172.17 g/mol with two waters of 18.015; what is left counts as dry.
const gypsumWater = (0.1 * 2 * 18.015) / 172.17;
/** Forty cores, so many of which name no batch. */
const unbatched = (count: number) => {
  let seen = 0;
  return cored([full], { trial: ten, batchOf: () => (seen++ < count ? undefined : 'B1') });
};
const changes = (
  ...each: readonly {
    readonly lastChange_pct?: number;
    readonly changeBefore_pct?: number;
    readonly stopRule?: string;
  }[]
) => cored(each.map((one) => ({ oven_c: 105, ...one })));

const potential = (impedance_mohm: number | undefined, isOutcome: boolean): Trial => {
  const pins = {
    ...{ instrument: 'pins', kind: 'potential' as const },
    ...(impedance_mohm === undefined ? {} : { impedance_mohm }),
  };
  const readings = sound.readings.flatMap((one) => {
    const pin = { ...one, instrument: 'pins' };
    return isOutcome ? [pin] : [one, pin];
  });
  const outcome = isOutcome ? { ...soundProtocol.outcome, instrument: 'pins' } : soundProtocol.outcome;
  return planned({ outcome, instruments: [...soundProtocol.instruments, pins] }, { ...sound, readings });
};

const creeping = (creep: number, of_: number) =>
  logged(Array.from({ length: of_ }, (_, at) => recordOf(sensors[at] ?? `S${at}`, () => false, at < creep ? -0.2 : 0)));

const wandering = (() => {
  let carried = 0;
  return visitsOf(16, (after, _days, at) => {
    carried = 0.9 * carried + 0.2 * (noise[at] ?? 0);
    return carried - (after ? 4 : 0);
  });
})();
const series = trialOfTwo(stepped(-4));
const seriesChecks = (more: {
  readonly correlation?: number;
  readonly effectiveVisits?: number;
}): NonNullable<Row['change']> => {
  return (grounds) => {
    const own = grounds.facts.series;
    if (own?.checks === undefined) throw new Error('the series has no checks');
    const checks = { ...own.checks, correlation: 0, effectiveVisits: 16, ...more };
    return { ...grounds, facts: { ...grounds.facts, series: { ...own, checks } } };
  };
};

const checkOn = (...dates: readonly string[]): Trial => {
  const trial = byMeter();
  return {
    ...trial,
    checks: (trial.checks ?? []).slice(0, 1).flatMap((one) => dates.map((date) => ({ ...one, date }))),
  };
};
const { checks: _, ...byMeterUnchecked } = byMeter();
/** Values of two blocks before, and of the same after, from 80 on; a block without a number is not read. */
const drifted = ([first = 0, second = 0, firstAfter_ = 0, secondAfter = 0]: readonly number[]): Trial => {
  const [one] = byMeter().checks ?? [];
  if (one === undefined) throw new Error('the meter was checked');
  const on = (date: string, block: string, above: number) =>
    Number.isNaN(above) ? [] : [{ ...one, date, block, value: measured(80 + above) }];
  return {
    ...byMeterUnchecked,
    checks: [
      ...on('2024-04-10', 'wet', first),
      ...on('2024-04-10', 'dry', second),
      ...on('2025-04-10', 'wet', firstAfter_),
      ...on('2025-04-10', 'dry', secondAfter),
    ],
  };
};
/** Shifts of two blocks whose mean over its standard error, which is half of how far they lie apart, gives this p-value (Student's with one degree of freedom: Cauchy's). */
const shiftsAt = (pValue: number) => {
  const apart = Math.tan((pValue * Math.PI) / 2);
  return [0, 0, 1, 1 - (2 * apart) / (1 + apart)];
};
const conditionedAt = (humidity_pct: number | undefined, humidTemperature_c?: number): Trial => {
  const batch = {
    ...full,
    ...(humidity_pct === undefined ? {} : { humidity_pct }),
    ...(humidTemperature_c === undefined ? {} : { humidTemperature_c }),
  };
  const trial = cored([batch, batch]);
  return { ...trial, cores: trial.cores.map((core) => ({ ...core, humid_g: 101 })) };
};
const unblindedOn = (...days: readonly (readonly [string, string?])[]) =>
  withEvents(days.map(([date, wall]) => (wall === undefined ? [date, 'unblinded'] : [date, 'unblinded', wall])));

export const measurementRows: readonly Row[] = [
  ...rowsOf(
    'outcome-is-an-index',
    ['serious', 'a microwave meter', byMeter()],
    ['serious', 'a voltage', potential(10, true)],
    ['serious', 'embedded sensors', sensorTrial],
    ['not found', 'weighed', sound],
    ['not found', 'read in its own unit', planned({ instruments: [{ instrument: 'core', kind: 'direct' }] })],
  ),
  ...rowsOf(
    'blinding-not-recorded',
    ['not found', '18 of 20 name their reader', firstAfter(2, nameless), { within: 'stated' }],
    [
      'silent',
      '17 of 20 name their reader',
      firstAfter(3, nameless),
      { beyond: 'stated', direction: 'towards the claim' },
    ],
    ['not found', '18 of 20 note what the reader knew', firstAfter(2, unnoted), { within: 'stated' }],
    ['silent', '17 of 20 note what the reader knew', firstAfter(3, unnoted), { beyond: 'stated' }],
    [
      'silent',
      'a meter in one unblinded hand',
      byMeter(notBlinded, (one) => unnoted(by('R1')(one))),
      { atBest: 'shaky' },
    ],
    ['silent', 'a meter in two unblinded hands', byMeter(notBlinded, unnoted)],
    ['no entry', 'nothing was read after', nothingAfter],
    ['no entry', 'a log reads itself', sensorTrial],
  ),
  ...rowsOf(
    'readers-knew',
    ['not found', 'all blind', sound, { value: 0, direction: 'towards the claim' }],
    ['minor', '1 of 20 knew', firstAfter(1, knew('yes')), { value: 0.05, within: 'knowing' }],
    ['serious', '2 of 20 knew', firstAfter(2, knew('yes')), { value: 0.1, beyond: 'knowing' }],
    [
      'minor',
      'not kept blind, and 18 of 20 did not know',
      planned(notBlinded, firstAfter(2, unnoted)),
      { within: 'stated' },
    ],
    [
      'serious',
      'not kept blind, and 17 of 20 did not know',
      planned(notBlinded, firstAfter(3, unnoted)),
      { beyond: 'stated' },
    ],
    ['serious', 'not kept blind, and 1 of 20 knew', planned(notBlinded, firstAfter(1, knew('yes')))],
    [
      'serious',
      'not kept blind, a meter in one hand that knew',
      byMeter(notBlinded, (one) => knew('yes')(by('R1')(one))),
      { atBest: 'shaky' },
    ],
    ['serious', 'not kept blind, a meter in two hands that knew', byMeter(notBlinded, knew('yes'))],
    [
      'not found',
      'who knew before the treatment had nothing to know',
      reading((one) => (isAfter(one) ? one : knew('yes')(one))),
    ],
    ['no entry', 'nothing was read after', nothingAfter],
    ['no entry', 'a log reads itself', sensorTrial],
  ),
  ...rowsOf(
    'knew-unsure',
    ['not found', '2 of 20', firstAfter(2, knew('unsure')), { value: 0.1, within: 'unsure' }],
    ['minor', '3 of 20', firstAfter(3, knew('unsure')), { value: 0.15, beyond: 'unsure' }],
    ['minor', '9 of 20', firstAfter(9, knew('unsure')), { value: 0.45, within: 'mostlyUnsure' }],
    ['serious', '10 of 20', firstAfter(10, knew('unsure')), { value: 0.5, beyond: 'mostlyUnsure' }],
    ['no entry', 'a log reads itself', sensorTrial],
  ),
  ...rowsOf(
    'unblinded-during-trial',
    ['serious', 'of all walls', unblindedOn(['2024-09-01']), { direction: 'towards the claim' }],
    ['minor', 'of one wall', unblindedOn(['2024-09-01', 'T1'])],
    ['serious', 'on the last day', unblindedOn(['2025-05-31'])],
    ['no entry', 'on the day after', unblindedOn(['2025-06-01'])],
    ['no entry', 'never', sound],
  ),
  ...rowsOf(
    'arms-guessed',
    // Of 924 allocations of six walls in twelve 84, 28 and 7 have as many right or more: six of the 9, 8 and 7 that are called treated.
    ['not found', '9 of 12 right', guessed(9), { value: 0.75, pValue: 84 / 924, within: 'alarm' }],
    ['not found', '10 of 12 right', guessed(10), { value: 10 / 12, pValue: 28 / 924, within: 'alarm' }],
    [
      'minor',
      '11 of 12 right, and somebody else guessed late',
      guessedLateToo(11),
      { pValue: 14 / 924, beyond: 'alarm' },
    ],
    ['serious', '11 of 12 right', guessed(11), { value: 11 / 12, pValue: 7 / 924, beyond: 'plainAlarm' }],
    [
      'not found',
      '10 of 12 right, and somebody else guessed late',
      guessedLateToo(10),
      { pValue: (2 * 28) / 924, within: 'alarm' },
    ],
    [
      'minor',
      '11 of 12 right, and somebody else guessed late: two looks',
      guessedLateToo(11),
      { pValue: (2 * 7) / 924, within: 'plainAlarm' },
    ],
    ['not found', 'all wrong', guessed(0), { value: 0, pValue: 1 }],
    ['open', 'nobody was asked', sound],
  ),
  ...rowsOf(
    'knowing-read-differently',
    ['not found', 'p just above 0.03', knowingAt(0.0301), { pValue: 0.0301, within: 'alarm' }],
    ['minor', 'p just below 0.03', knowingAt(0.0299), { pValue: 0.0299, beyond: 'alarm' }],
    ['minor', 'p just above 0.01', knowingAt(0.0101), { pValue: 0.0101, within: 'plainAlarm' }],
    ['serious', 'p just below 0.01', knowingAt(0.0099), { pValue: 0.0099, beyond: 'plainAlarm' }],
    ['serious', 'knowing readers saw treated walls drier', knowingBeside(-2), { direction: 'towards the claim' }],
    ['serious', 'knowing readers saw treated walls wetter', knowingBeside(2), { direction: 'away from the claim' }],
    ['serious', 'and lower where higher is better', higher(knowingBeside(2)), { direction: 'away from the claim' }],
    ['open', 'no station was read by both', firstAfter(5, knew('yes'))],
    ['no entry', 'all are blind', sound],
  ),
  ...rowsOf(
    'readers-differ-by-arm',
    ['serious', 'each arm by its own reader', reading((one) => by(isTreated(one.wall) ? 'R1' : 'R2')(one))],
    [
      'not found',
      'one reading of the other arm',
      reading((one, at) => by(isTreated(one.wall) && at > 0 ? 'R1' : 'R2')(one)),
    ],
    ['no entry', 'nobody is named', reading(nameless)],
  ),
  ...rowsOf(
    'readers-changed',
    ['not found', 'half of the treated walls by another after', changedOn(5, 'treated'), { within: 'readersKept' }],
    ['serious', 'six of ten treated walls by another after', changedOn(6, 'treated'), { beyond: 'readersKept' }],
    ['serious', 'six of ten untreated walls by another after', changedOn(6, 'untreated')],
    ['minor', 'six of ten of both', changedOn(6, 'both')],
    ['no entry', 'nobody is named', reading(nameless)],
  ),
  ...rowsOf(
    'only-one-reader',
    ['minor', 'one person held the meter', byMeter({}, by('R1'))],
    ['not found', 'two people held it', byMeter()],
    ['no entry', 'nobody is named', byMeter({}, nameless)],
    ['no entry', 'one person drilled cores', sound],
  ),
  ...rowsOf(
    'weighed-and-held',
    ['minor', 'the meter shows what cores do not', beside(0, -3)],
    ['not found', 'both show it', beside(-3, -3)],
    ['not found', 'cores show what the meter does not', beside(-3, 0)],
    ['no entry', 'a probe left in place', beside(0, -3, 'humidity-probe')],
    ['no entry', 'cores alone', sound],
  ),
  ...rowsOf(
    'oven-not-stated',
    ['not found', '36 of 40 cores name a batch', unbatched(4), { within: 'stated' }],
    ['silent', '35 of 40 cores name a batch', unbatched(5), { beyond: 'stated' }],
    ['not found', 'a last change and no rule', cored([{ oven_c: 105, lastChange_pct: 0.05 }, full])],
    ['not found', 'a rule and no last change', cored([{ oven_c: 105, stopRule: 'constant' }, full])],
    ['silent', 'neither', cored([{ oven_c: 105 }, full])],
    ['silent', 'no oven', cored([{ stopRule: 'constant' }, full])],
    ['not found', 'readings of a weighed outcome, and batches', sound],
    ['silent', 'readings of a weighed outcome, and none', { ...sound, batches: [] }],
    ['no entry', 'a meter', byMeter()],
  ),
  ...rowsOf(
    'oven-too-hot-for-gypsum',
    ['not found', 'at 42 °C, up to which gypsum keeps its water', of(gypsum, ovens(42, 42))],
    ['minor', 'at 43 °C', of(gypsum, ovens(43, 43)), { value: (100 * gypsumWater) / (1 - gypsumWater) }],
    ['serious', 'at 40 and 105 °C', of(gypsum, ovens(40, 105))],
    ['minor', 'in the words of the trade elsewhere', of('Gipsputz', ovens(105, 105))],
    ['no entry', 'walls without gypsum', ovens(105, 105)],
    ['no entry', 'a meter', of(gypsum, byMeter())],
  ),
  ...rowsOf(
    'dried-unlike',
    ['not found', 'at 100 and 105 °C', ovens(100, 105), { value: 5, within: 'ovensApart_c' }],
    ['minor', 'at 99 and 105 °C, alike for both arms', ovens(99, 105), { value: 6, beyond: 'ovensApart_c' }],
    ['serious', 'each arm in its oven', byArm(99, 105), { value: 6 }],
    [
      'serious',
      'untreated walls before name no batch',
      cored(
        [
          { ...full, oven_c: 105 },
          { ...full, oven_c: 70 },
        ],
        { batchOf: (core) => (isAfter(core) ? 'B2' : isTreated(core.wall) ? 'B1' : undefined) },
      ),
    ],
    ['not found', 'one oven unstated', cored([full, { stopRule: 'constant' }])],
    ['no entry', 'walls of gypsum, of which another search speaks', of(gypsum, ovens(105, 70))],
    ['no entry', 'no batch names its oven', cored([{ stopRule: 'constant' }, { stopRule: 'constant' }])],
  ),
  ...rowsOf(
    'batches-by-arm',
    ['minor', 'each arm in batches of its own', batchesOfArms(0), { value: 0 }],
    ['minor', '3 of 40 cores dried with the other arm’s', batchesOfArms(3), { value: 0.075, beyond: 'driedTogether' }],
    ['not found', '4 of 40', batchesOfArms(4), { value: 0.1, within: 'driedTogether' }],
    ['not found', 'both arms in every batch', cored([full, full]), { value: 1 }],
    ['no entry', 'each core by itself', coredAlone],
    ['no entry', 'no batch is named', cored([full], { batchOf: () => undefined })],
    ['no entry', 'no day on which both were cored', coredOnOwnDays],
    ['no entry', 'a meter', byMeter()],
  ),
  ...rowsOf(
    'not-dried-to-constant-mass',
    ['not found', 'a last change of 0.1 %', changes({ lastChange_pct: 0.1 }, { lastChange_pct: 0.02 })],
    ['minor', 'a last change of 0.11 %', changes({ lastChange_pct: 0.02 }, { lastChange_pct: 0.11 }), { value: 0.11 }],
    // Half the margin of 2 points: 0.5²/(0.76 − 0.5) = 0.96 % still in it, and 0.5²/(0.75 − 0.5) = 1 %.
    [
      'minor',
      'changes of 0.76 and 0.5 %',
      changes({ lastChange_pct: 0.02 }, { changeBefore_pct: 0.76, lastChange_pct: 0.5 }),
      { value: 0.5, within: 'dampMargins' },
    ],
    [
      'serious',
      'changes of 0.75 and 0.5 %',
      changes({ lastChange_pct: 0.02 }, { changeBefore_pct: 0.75, lastChange_pct: 0.5 }),
      { value: 0.5, beyond: 'dampMargins' },
    ],
    // Three times 0.33 and 0.34 %.
    [
      'minor',
      'a last change of 0.33 %, and none before it',
      changes({ lastChange_pct: 0.02 }, { lastChange_pct: 0.33 }),
      { value: 0.33, within: 'lastChanges' },
    ],
    [
      'serious',
      'a last change of 0.34 %, and none before it',
      changes({ lastChange_pct: 0.02 }, { lastChange_pct: 0.34 }),
      { value: 0.34, beyond: 'lastChanges' },
    ],
    [
      'serious',
      'a last change of 0.34 % that is hardly smaller than the one before',
      changes({ lastChange_pct: 0.02 }, { changeBefore_pct: 0.35, lastChange_pct: 0.34 }),
    ],
    [
      'minor',
      'a last change of 0.34 %, a quarter of the one before',
      changes({ lastChange_pct: 0.02 }, { changeBefore_pct: 1.36, lastChange_pct: 0.34 }),
    ],
    [
      'minor',
      'a stricter rule of its own missed',
      changes({ lastChange_pct: 0.02 }, { stopRule: 'under 0.05 % of the mass in a day', lastChange_pct: 0.08 }),
      { value: 0.08 },
    ],
    [
      'minor',
      'a looser rule of its own kept',
      changes({ stopRule: 'under 0.5 % of the mass in 4 h', lastChange_pct: 0.3 }, { lastChange_pct: 0.02 }),
      { value: 0.3 },
    ],
    [
      'not found',
      'a rule that cannot be held against the change',
      changes({ stopRule: 'under 0.01 % of the water', lastChange_pct: 0.05 }, {}),
    ],
    ['no entry', 'no change is stated', changes({ stopRule: 'constant' }, {})],
  ),
  ...rowsOf(
    'meter-not-checked',
    ['not found', 'checked before and after', byMeter()],
    ['not found', 'on the first and the last day', checkOn('2024-03-01', '2025-05-31')],
    ['silent', 'checked before alone', checkOn('2024-03-01')],
    ['silent', 'checked after alone', checkOn('2025-05-31')],
    ['silent', 'checked the day after the after window', checkOn('2024-03-01', '2025-06-01')],
    ['no entry', 'weighed', sound],
  ),
  ...rowsOf(
    'checks-drift',
    // Two blocks read once in either window: half a sum of two shifts, whose spread leaves one degree of freedom.
    ['not found', 'by nothing', drifted([0, 0.25, 0, 0.25]), { value: 0 }],
    ['not found', 'by 0.125 one way and the other', drifted([0, 0, 0.125, -0.125]), { value: 0 }],
    ['minor', 'by 1.875 on each of two blocks', drifted([0, 0.25, 1.875, 2.125]), { value: 1.875 }],
    ['serious', 'by the margin of 2', drifted([0, 0.25, 2, 2.25]), { value: 2 }],
    ['serious', 'down by it', drifted([2, 2.25, 0, 0.25]), { value: -2 }],
    ['not found', 'by 2 and 0, which may be scatter', drifted([0, 0, 2, 0]), { value: 1 }],
    [
      'not found',
      'by 4, on one block read once in either window',
      drifted([0, Number.NaN, 4, Number.NaN]),
      { value: 4 },
    ],
    ['not found', 'p just above 0.03', drifted(shiftsAt(0.0301)), { within: 'alarm' }],
    ['minor', 'p just below 0.03', drifted(shiftsAt(0.0299)), { beyond: 'alarm' }],
    ['no entry', 'no checks', byMeterUnchecked],
    ['no entry', 'weighed', sound],
  ),
  ...rowsOf(
    'conditioned-near-salt',
    // Common salt dissolves at 75.48 % of humidity at 20 °C.
    ['not found', 'at 74.4 %', conditionedAt(74.4), { within: 'nearSalt_pp' }],
    ['minor', 'at 74.5 %', conditionedAt(74.5), { beyond: 'nearSalt_pp' }],
    ['minor', 'at 76.4 %', conditionedAt(76.4), { beyond: 'nearSalt_pp' }],
    ['not found', 'at 76.5 %', conditionedAt(76.5), { within: 'nearSalt_pp' }],
    ['no entry', 'no core was weighed humid', cored([{ ...full, humidity_pct: 75 }, full])],
    ['no entry', 'the humidity is not on record', conditionedAt(undefined)],
    ['no entry', 'at a temperature for which it is not known', conditionedAt(75, 150)],
  ),
  ...rowsOf(
    'impedance-low',
    ['not found', '10 megohms', potential(10, true), { value: 10, within: 'impedance_mohm' }],
    ['serious', '9.9 megohms, and the outcome', potential(9.9, true), { value: 9.9, beyond: 'impedance_mohm' }],
    ['minor', '9.9 megohms, beside the outcome', potential(9.9, false), { value: 9.9 }],
    ['no entry', 'not stated', potential(undefined, true)],
    ['no entry', 'no potentials', sound],
  ),
  ...rowsOf(
    'read-on-new-plaster',
    ['minor', 'the walls read after were plastered anew', onNewPlaster('2024-08-01'), { value: 1 }],
    ['minor', 'on the day itself', onNewPlaster('2025-04-10'), { value: 1 }],
    ['not found', 'plastered after they were read', onNewPlaster('2025-04-11'), { value: 0 }],
    ['no entry', 'cores', withEvents([['2024-08-01', 'replastered']])],
    ['no entry', 'no new plaster', byMeter()],
  ),
  ...rowsOf(
    'sensors-drift',
    ['not found', 'none of five', creeping(0, 5)],
    ['minor', 'one of five', creeping(1, 5), { value: -0.2, within: 'sensorsDrifting' }],
    ['serious', 'one of four', creeping(1, 4), { value: -0.2, beyond: 'sensorsDrifting' }],
    ['no entry', 'the outcome is weighed', planned({ outcome: sound.protocol.outcome }, creeping(1, 4))],
    ['no entry', 'no log', sound],
  ),
  ...rowsOf(
    'visits-much-alike',
    ['serious', 'a difference that wanders, so that the visits are worth fewer than four', trialOfTwo(wandering)],
    ['not found', 'one that does not', series],
    [
      'not found',
      'autocorrelation of 0.3',
      series,
      { value: 0.3, change: seriesChecks({ correlation: 0.3 }), within: 'autocorrelation' },
    ],
    [
      'minor',
      'of 0.31',
      series,
      { value: 0.31, change: seriesChecks({ correlation: 0.31 }), beyond: 'autocorrelation' },
    ],
    [
      'not found',
      'worth four visits',
      series,
      { change: seriesChecks({ effectiveVisits: 4 }), within: 'independentVisits' },
    ],
    [
      'serious',
      'worth 3.9 visits',
      series,
      { change: seriesChecks({ effectiveVisits: 3.9 }), beyond: 'independentVisits' },
    ],
    ['no entry', 'no series', sound],
  ),
];
