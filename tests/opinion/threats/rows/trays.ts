import type { TrayRecord, Trial } from '../../../../src/trial/index.js';
import { trayTrial } from '../../../helpers/tray-trial.js';
import { type Row, rowsOf } from './row.js';
import { sound } from './trials.js';

// About 100 ml a day at the middle of the last four visits: 0.3 a day are 9 % in 30 days, and 0.4 are 12 %.
const moving = (perDay: number, untreated?: number) => trayTrial((day) => 100 + perDay * day, untreated);
const shortOf = (trial: Trial): Trial => ({
  ...trial,
  readings: trial.readings.filter(({ date }) => date > '2024-05-01' && date !== '2024-05-05'),
});

/** One record a wall before and one after: the treated walls' as given, the untreated walls' at 30 mm of tap water. */
function standing(
  treated: Partial<TrayRecord>,
  untreated: Partial<TrayRecord> = { level_mm: 30, water: 'tap' },
): Trial {
  const trial = moving(0);
  const rowOf = (wall: string, date: string, state: Partial<TrayRecord>, row: number): TrayRecord => ({
    ...{ date, wall, ...state },
    origin: { file: 'trays.csv', row },
  });
  const trays = trial.walls.flatMap(({ wall, arm }, k) =>
    ['2024-05-10', '2025-04-10'].map((date, at) =>
      rowOf(wall, date, arm === 'treated' ? treated : untreated, 2 + 2 * k + at),
    ),
  );
  return { ...trial, trays };
}

/** The walls of that name alone have records; those of the other arm keep theirs. */
const treatedAlone = (name: string, trial: Trial): Trial => ({
  ...trial,
  trays: (trial.trays ?? []).filter(({ wall }) => wall === name || !wall.startsWith('T')),
});

/** Of ten records of every treated wall so many with salt water. */
function saltInTen(salty: number): Trial {
  const trial = standing({ level_mm: 30, water: 'tap' });
  const treated = new Set(trial.walls.flatMap(({ wall, arm }) => (arm === 'treated' ? [wall] : [])));
  const trays = (trial.trays ?? []).flatMap((record) =>
    treated.has(record.wall)
      ? Array.from({ length: 10 }, (_, at): TrayRecord => ({ ...record, water: at < salty ? 'salt' : 'tap' }))
      : [record],
  );
  return { ...trial, trays };
}

const unlikeRows: readonly Row[] = rowsOf(
  'trays-unlike',
  ['not found', 'one level, one water', standing({ level_mm: 30, water: 'tap' })],
  ['not found', 'treated walls 4.9 mm deeper', standing({ level_mm: 34.9, water: 'tap' }), { within: 'trayLevel' }],
  ['minor', 'treated walls 5 mm deeper', standing({ level_mm: 35, water: 'tap' }), { beyond: 'trayLevel' }],
  ['minor', 'treated walls 5 mm less deep, waters not on record', standing({ level_mm: 25 })],
  ['not found', 'no record with salt water', saltInTen(0), { within: 'traySalt' }],
  ['serious', 'every tenth record of treated walls with salt water', saltInTen(1), { beyond: 'traySalt' }],
  // A mean of three tenths is a little more than a tenth as a number.
  ['serious', 'exactly every tenth, of one treated wall', treatedAlone('T1', saltInTen(1)), { value: 0.1 }],
  ['serious', 'salt water in the trays of treated walls, level not on record', standing({ water: 'salt' })],
  ['not found', 'salt water in all trays', standing({ water: 'salt' }, { water: 'salt' })],
  ['open', 'neither level nor water', standing({ mass_kg: 60 }, { mass_kg: 60 })],
  ['open', 'level of one arm, water of the other', standing({ level_mm: 30 }, { water: 'tap' })],
  ['no entry', 'cores and no trays', sound],
);

const restRows: readonly Row[] = rowsOf(
  'trays-not-at-rest',
  ['not found', 'a refill that stays the same', moving(0)],
  ['not found', 'a refill that rises by 9 % in 30 days', moving(0.3), { within: 'trayTrend' }],
  ['minor', 'a refill that rises by 12 % in 30 days', moving(0.4), { beyond: 'trayTrend' }],
  ['minor', 'a refill that falls by 12 % in 30 days', moving(-0.4)],
  ['serious', 'the same beside one untreated wall', moving(-0.4, 1)],
  ['open', 'three visits before', shortOf(moving(0))],
  ['no entry', 'cores and no trays', sound],
);

export const trayRows: readonly Row[] = [...restRows, ...unlikeRows];
