import type { Trial } from '../../../../src/index.js';
import { madeTrial } from '../../../helpers/made-trial.js';
import { type Base, faults, MARGIN, plant, soundTrial, soundTrialFor } from '../../../simulation/fault-trials.js';
import { type Row, rowsOf } from './row.js';
import { lost, sound, walls } from './trials.js';

const names = walls.map(({ wall }) => wall);
const nothingRead = madeTrial(lost(lost(walls, names), names, 'before'));
const treatedOnly = madeTrial(walls.filter(({ arm }) => arm === 'treated'));

const seed = 3;
/** Cores enough for tests of their masses. */
const soundCores = soundTrial(seed, { effect: -2 * MARGIN });
const soundMeter = soundTrial(seed, { outcome: 'direct-meter' });

function withFault(name: string, base?: Partial<Base>) {
  const fault = faults.find((one) => one.name === name);
  if (fault === undefined) throw new Error(`no fault is called ${name}`);
  return plant(fault, base === undefined ? soundTrialFor(fault, seed) : soundTrial(seed, base), seed);
}

/** The same trial with another p-value of one of the tests. */
function withP(of: 'copied' | 'digits' | 'spread', pValue: number): NonNullable<Row['change']> {
  return (grounds) => {
    const { numbers } = grounds;
    return { ...grounds, numbers: { ...numbers, [of]: { ...numbers[of], pValue } } };
  };
}
const just = { within: 0.00101, beyond: 0.00099 };
const either = (of: 'copied' | 'digits' | 'spread', trial: Trial) =>
  [
    [
      'not found',
      'p just above 0.001',
      trial,
      { pValue: just.within, change: withP(of, just.within), within: 'inventedNumbers' },
    ],
    [
      'serious',
      'p just below 0.001',
      trial,
      { pValue: just.beyond, change: withP(of, just.beyond), beyond: 'inventedNumbers' },
    ],
  ] as const;

const copiedMasses = withFault('numbers-copied');

/** All that the meter showed on one wall written down for another one too. */
const copiedReadings = (() => {
  const ofFirst = new Map(soundMeter.readings.map((one) => [`${one.date} ${one.station}`, one.value]));
  const readings = soundMeter.readings.map((one) => {
    const value = ofFirst.get(`${one.date} ${one.station.replace('W02', 'W01')}`);
    return one.wall === 'W02' && value !== undefined ? { ...one, value } : one;
  });
  return { ...soundMeter, readings };
})();

/** Masses in steps of 0.05 g, of a balance that is stated to show so many grams. */
const shown = (resolution_g: number) => {
  const trial = withFault('masses-rounded');
  const instruments = trial.protocol.instruments.map((one) =>
    one.kind === 'gravimetric' ? { ...one, resolution_g } : one,
  );
  return { ...trial, protocol: { ...trial.protocol, instruments } };
};

export const inventedRows: readonly Row[] = [
  ...rowsOf(
    'numbers-copied',
    ['not found', 'cores of a sound trial', soundCores],
    ['serious', 'masses of two visits copied', copiedMasses],
    ['not found', 'a sound meter', soundMeter],
    ['serious', 'one wall of a meter copied from another', copiedReadings],
    ['no entry', 'nothing was read', nothingRead],
    ...either('copied', copiedMasses),
  ),
  ...rowsOf(
    'last-digits-uneven',
    ['not found', 'cores of a sound trial', soundCores],
    // As a balance shows them that weighs in such steps: it has ten last digits of its own.
    ['minor', 'masses in steps of 0.05 g of a balance that shows 0.01 g', withFault('masses-rounded'), { value: 0.05 }],
    ['minor', 'of one that shows 0.033 g', shown(0.033), { value: 0.05, beyond: 'coarserSteps' }],
    ['not found', 'of one that shows 0.034 g', shown(0.034), { within: 'coarserSteps' }],
    ['serious', 'last digits made up', withFault('digits-invented')],
    ['no entry', 'few numbers', sound],
    ...either('digits', soundCores),
  ),
  ...rowsOf(
    'spread-too-small',
    ['not found', 'cores of a sound trial', soundCores],
    [
      'serious',
      'twelve treated walls twenty times as much alike as untreated ones',
      withFault('spread-too-small', { perArm: 12, effect: -2 * MARGIN }),
    ],
    ['no entry', 'one station a wall, and one arm', treatedOnly],
    ...either('spread', soundCores),
  ),
];
