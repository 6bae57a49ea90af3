import type { Trial } from '../../../../src/trial/index.js';
import { trayTrial } from '../../../helpers/tray-trial.js';
import { type Row, rowsOf } from './row.js';
import { sound } from './trials.js';

// About 100 ml a day at the middle of the last four visits: 0.3 a day are 9 % in 30 days, and 0.4 are 12 %.
const moving = (perDay: number, untreated?: number) => trayTrial((day) => 100 + perDay * day, untreated);
const shortOf = (trial: Trial): Trial => ({
  ...trial,
  readings: trial.readings.filter(({ date }) => date > '2024-05-01' && date !== '2024-05-05'),
});

export const trayRows: readonly Row[] = rowsOf(
  'trays-not-at-rest',
  ['not found', 'a refill that stays the same', moving(0)],
  ['not found', 'a refill that rises by 9 % in 30 days', moving(0.3), { within: 'trayTrend' }],
  ['minor', 'a refill that rises by 12 % in 30 days', moving(0.4), { beyond: 'trayTrend' }],
  ['minor', 'a refill that falls by 12 % in 30 days', moving(-0.4)],
  ['serious', 'the same beside one untreated wall', moving(-0.4, 1)],
  ['open', 'three visits before', shortOf(moving(0))],
  ['no entry', 'cores and no trays', sound],
);
