import type { Reading, SaltSample, Trial } from '../../../../src/index.js';
import { welch } from '../../../../src/statistics/index.js';
import type { InstrumentKind, Recorded, SaltIon } from '../../../../src/trial/index.js';
import { type Row, rowsOf } from './row.js';
import { byMeter, isTreated, measured, numberOf, planned, solve, sound } from './trials.js';

const missing: Recorded = { kind: 'missing' };

/** A sample of every wall before and after, at one place. */
function salted(
  trial: Trial,
  contentOf: (wall: string, isAfter: boolean) => Recorded,
  { ion = 'chloride', days = ['2024-04-10', '2025-04-10'] }: { ion?: SaltIon; days?: readonly string[] } = {},
): Trial {
  const salts = trial.walls.flatMap(({ wall }) =>
    days.map(
      (date): SaltSample => ({
        ...{ date, wall, height_mm: 300, depth_mm: 20 },
        contents_pct: { chloride: missing, nitrate: missing, sulfate: missing, [ion]: contentOf(wall, date > '2025') },
        scheme: 'wta-2-6-99',
        origin: { file: 'salts.csv', row: 2 },
      }),
    ),
  );
  return { ...trial, salts };
}

const before = ['2024-04-10'];
/** Treated walls held so many times as much chloride as untreated ones. */
const loads = (treated: number, untreated: number, trial = sound, ion: SaltIon = 'chloride') =>
  salted(trial, (wall) => measured(isTreated(wall) ? treated : untreated), { days: before, ion });

const meter = (kind: InstrumentKind, change: (one: Reading) => Reading = (one) => one): Trial =>
  byMeter(
    {
      instruments: [
        ...sound.protocol.instruments.filter(({ instrument }) => instrument !== 'mw'),
        { instrument: 'mw', kind },
      ],
    },
    change,
  );
const resistance = meter('resistance');

const own = [0.012, -0.02, 0.031, -0.005, 0.022, -0.03];
const other = [-0.01, 0.025, -0.022, 0.008, -0.031, 0.02];
const ownOf = (wall: string) => (isTreated(wall) ? own : other)[numberOf(wall) - 1] ?? 0;
/** Chloride of 0.4 % before; treated walls change by so much more than untreated ones, with a scatter of their own. */
const changing = (by: number, trial = resistance, scatter = 1) =>
  salted(trial, (wall, isAfter) =>
    measured(0.4 + (isAfter ? 0.1 + scatter * ownOf(wall) + (isTreated(wall) ? by : 0) : 0)),
  );
const gap = own.reduce((sum, one) => sum + one, 0) / 6 - other.reduce((sum, one) => sum + one, 0) / 6;
/** Changes that lie apart by this share of what was held before. */
const shared = (share: number) => changing(-0.4 * share - gap);
/** How much wider walls must scatter for Welch's p-value to be this one, where the changes lie half of 0.4 % apart. */
const pAt = (scatter: number) =>
  welch(
    own.map((one) => scatter * (one - gap) - 0.2),
    other.map((one) => scatter * one),
  ).pValue;
const scattered = (pValue: number) => {
  const scatter = solve(pAt, pValue, 1, 60);
  return changing(-0.2 - scatter * gap, resistance, scatter);
};

/** Content of 1/2 before; treated walls lose this share of it, and all scatter by 1/64 about their mean, which numbers hold exactly. */
const losing = (share: number) =>
  salted(resistance, (wall, isAfter) => {
    const scatter = numberOf(wall) % 2 === 0 ? 1 / 64 : -1 / 64;
    return measured(0.5 + (isAfter ? scatter - (isTreated(wall) ? share / 2 : 0) : 0));
  });

const towards = { direction: 'towards the claim' } as const;
const away = { direction: 'away from the claim' } as const;

export const saltRows: readonly Row[] = [
  ...rowsOf(
    'salts-unlike',
    ['minor', 'twice the chloride in treated walls, and weighed', loads(0.4, 0.2), { value: 2, beyond: 'saltRatio' }],
    ['serious', 'the same under a resistance meter', loads(0.4, 0.2, resistance)],
    ['serious', 'under a capacitance meter', loads(0.4, 0.2, meter('capacitance'))],
    ['serious', 'under a voltmeter', loads(0.4, 0.2, meter('potential'))],
    ['minor', 'under a microwave meter, which salts move less', loads(0.4, 0.2, meter('microwave'))],
    ['minor', 'twice the chloride in untreated walls', loads(0.2, 0.4), { value: 2 }],
    ['minor', 'none in untreated walls', loads(0.4, 0)],
    ['not found', 'nearly twice', loads(0.399, 0.2), { value: 1.995, within: 'saltRatio' }],
    // The strictest schemes call chloride low below 0.03 %.
    ['minor', 'twice as much of little, no longer low', loads(0.03, 0.01), { beyond: 'saltsCount' }],
    ['not found', 'three times as much of next to nothing', loads(0.0299, 0.0099), { within: 'saltsCount' }],
    ['not found', 'none at all', loads(0, 0), { value: 1 }],
    ['minor', 'twice the sulfate', loads(0.4, 0.2, sound, 'sulfate')],
    [
      'minor',
      'all untreated walls below a low detection limit',
      salted(sound, (wall) => (isTreated(wall) ? measured(0.4) : { kind: 'below-detection', limit: 0.2 }), {
        days: before,
      }),
      { value: 2 },
    ],
    [
      'not found',
      'all untreated walls below a high detection limit, which may hide as much',
      salted(sound, (wall) => (isTreated(wall) ? measured(0.4) : { kind: 'below-detection', limit: 0.5 }), {
        days: before,
      }),
      { value: 1 },
    ],
    ['no entry', 'without salts', sound],
    [
      'no entry',
      'with salts of treated walls alone',
      { ...loads(0.4, 0.2), salts: (loads(0.4, 0.2).salts ?? []).filter(({ wall }) => isTreated(wall)) },
    ],
    ['no entry', 'with salts of the after window alone', salted(sound, () => measured(0.4), { days: ['2025-04-10'] })],
  ),
  ...rowsOf(
    'salts-changed-unlike',
    ['open', 'no salts under a resistance meter', resistance],
    ['open', 'salts before alone', loads(0.3, 0.3, resistance)],
    [
      'open',
      'samples of other places after',
      {
        ...changing(-0.2),
        salts: (changing(-0.2).salts ?? []).map((one) => (one.date > '2025' ? { ...one, height_mm: 900 } : one)),
      },
    ],
    ['no entry', 'cores are weighed', sound],
    ['no entry', 'a microwave meter', meter('microwave')],
    ['serious', 'treated walls lose a quarter of what was held', shared(0.2501), { ...towards, beyond: 'saltChange' }],
    ['serious', 'exactly a quarter', losing(1 / 4), { value: -1 / 8, ...towards }],
    ['not found', 'somewhat less than a quarter', shared(0.2499), { within: 'saltChange' }],
    ['serious', 'treated walls gain half', changing(0.2 - gap), away],
    ['serious', 'half, under a capacitance meter', changing(-0.2 - gap, meter('capacitance')), towards],
    ['serious', 'half, under a voltmeter', changing(-0.2 - gap, meter('potential')), { direction: 'either way' }],
    [
      'serious',
      'half, where ohms are better the higher they are',
      changing(-0.2 - gap, planned({ outcome: { ...resistance.protocol.outcome, better: 'higher' } }, resistance)),
      towards,
    ],
    ['serious', 'half, with a p-value just below the alarm', scattered(0.0299), { pValue: 0.0299 }],
    ['not found', 'half, with a p-value just above it', scattered(0.0301), { pValue: 0.0301 }],
    [
      'not found',
      'all below a detection limit that may hide any change',
      salted(resistance, () => ({ kind: 'below-detection', limit: 0.5 })),
      { value: 0 },
    ],
  ),
];
