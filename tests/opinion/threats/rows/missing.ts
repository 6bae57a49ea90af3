import { holed, logged, recordOf, sensors, whole } from '../../../helpers/logged-trial.js';
import { madeTrial } from '../../../helpers/made-trial.js';
import { type Row, rowsOf } from './row.js';
import { chosen, lost, planned, sound, unplanned, walls, wallsInArms } from './trials.js';

const all = walls.map(({ wall }) => wall);
const ninePlusNine = wallsInArms(9);
const tenPlusTen = wallsInArms(10);

/** The sound trial of nine and nine walls, of whose readings so many more were below the limit. */
const withBelow = (count: number, extra = 0) => {
  const trial = madeTrial(ninePlusNine);
  const again = trial.readings.slice(0, extra);
  const below = trial.readings
    .slice(0, count)
    .map((one) => ({ ...one, value: { kind: 'below-detection' as const, limit: 0.5 } }));
  return { ...trial, readings: [...trial.readings, ...again, ...below] };
};

const daysLost = (...lostOf: readonly number[]) => logged(sensors.map((sensor, k) => holed(sensor, lostOf[k] ?? 0)));
const shortWindows = {
  before: { from: '2024-03-01', to: '2024-03-10' },
  after: { from: '2025-03-01', to: '2025-03-10' },
};
const silentSensor = [{ ...whole('T1'), days: [] }, ...sensors.slice(1).map(whole)];

export const missingRows: readonly Row[] = [
  ...rowsOf(
    'no-before-readings',
    [
      'serious',
      'no wall was read before, and after means of walls allocated at random are compared',
      madeTrial(lost(walls, all, 'before')),
    ],
    ['fatal', 'no wall was read before, and walls were chosen', chosen(madeTrial(lost(walls, all, 'before')))],
    ['no entry', 'one wall was read before', madeTrial(lost(walls, all.slice(1), 'before'))],
    ['no entry', 'no windows', unplanned('windows')],
  ),
  ...rowsOf(
    'no-after-readings',
    ['fatal', 'no wall was read after', madeTrial(lost(walls, all))],
    ['no entry', 'one wall was read after', madeTrial(lost(walls, all.slice(1)))],
  ),
  ...rowsOf(
    'walls-left-out',
    [
      'minor',
      'one of ten treated walls',
      madeTrial(lost(tenPlusTen, ['T1'])),
      { value: 0.1, within: 'wallsLostApart' },
    ],
    [
      'serious',
      'one of nine treated walls',
      madeTrial(lost(ninePlusNine, ['T1'])),
      { value: 1 / 9, beyond: 'wallsLostApart' },
    ],
    ['serious', 'one of nine untreated walls', madeTrial(lost(ninePlusNine, ['U1'])), { value: -1 / 9 }],
    ['minor', 'as many in either arm', madeTrial(lost(walls, ['T1', 'U1'])), { value: 0 }],
    ['serious', 'by their before reading', madeTrial(lost(walls, ['T1'], 'before'))],
    ['not found', 'none', sound],
    ['no entry', 'all of them, of which other searches speak', madeTrial(lost(walls, all))],
  ),
  ...rowsOf(
    'readings-below-detection',
    ['serious', '4 of 40', withBelow(4), { value: 0.1, beyond: 'belowDetection' }],
    ['minor', '4 of 41', withBelow(4, 1), { value: 4 / 41, within: 'belowDetection' }],
    ['not found', 'none', sound],
    ['no entry', 'nothing was read', madeTrial(lost(lost(walls, all), all, 'before'))],
  ),
  ...rowsOf(
    'sensor-days-missing',
    ['not found', 'a tenth alike', daysLost(4, 4, 4, 4), { value: 0.1, within: 'sensorDaysLost' }],
    ['minor', 'more than a tenth', daysLost(4, 4, 4, 5), { value: 17 / 160, beyond: 'sensorDaysLost' }],
    ['minor', 'a quarter', daysLost(10, 10, 10, 10), { value: 0.25, within: 'manySensorDaysLost' }],
    ['serious', 'more than a quarter', daysLost(10, 10, 10, 11), { value: 41 / 160, beyond: 'manySensorDaysLost' }],
    ['not found', 'a tenth more in one arm', daysLost(4, 4, 0, 0), { value: 0.05, within: 'sensorDaysLostApart' }],
    [
      'serious',
      'more than a tenth more in one arm',
      daysLost(4, 5, 0, 0),
      { value: 9 / 160, beyond: 'sensorDaysLostApart' },
    ],
    ['serious', 'and in the other', daysLost(0, 0, 4, 5), { value: 9 / 160 }],
    ['serious', 'a sensor that never read counts every day', logged(silentSensor), { value: 0.25 }],
    ['not found', 'none of the windows’ days', planned({ windows: shortWindows }, daysLost(30, 30, 30, 30))],
    [
      'no entry',
      'the outcome is weighed',
      planned(
        { outcome: sound.protocol.outcome },
        logged(sensors.map((sensor) => recordOf(sensor, (day) => day < 30))),
      ),
    ],
    ['no entry', 'no log', sound],
  ),
];
