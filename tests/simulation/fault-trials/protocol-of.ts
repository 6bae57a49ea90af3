import type { Arm, Comparison, Instrument, Protocol } from '../../../src/trial/index.js';
import { type Base, loggedWindows, MARGIN, windows } from './base.js';

const instruments: Readonly<Record<Base['outcome'], Instrument>> = {
  cores: { instrument: 'core', kind: 'gravimetric', resolution_g: 0.01 },
  'direct-meter': { instrument: 'meter', kind: 'direct' },
  'hand-held-meter': { instrument: 'meter', kind: 'microwave' },
  potential: {
    ...{ instrument: 'voltmeter', kind: 'potential', electrode: 'silver chloride', reference: 'foot of the wall' },
    ...{ polarity: 'point-minus-reference', impedance_mohm: 10 },
  },
  'embedded-sensors': { instrument: 'sensor', kind: 'embedded-sensor' },
};

/** What a reading shows for one percent by mass. */
export function scaleOf({ outcome }: Pick<Base, 'outcome'>): number {
  return outcome === 'potential' ? 10 : 1;
}

const armsOf: Readonly<Record<Base['arms'], readonly Arm[]>> = {
  'device-and-sham': [
    { arm: 'device', role: 'treated' },
    { arm: 'sham', role: 'sham' },
  ],
  'sham-and-control': [
    { arm: 'device', role: 'treated' },
    { arm: 'sham', role: 'sham' },
    { arm: 'bare', role: 'control' },
  ],
  'two-treatments': [
    { arm: 'device', role: 'treated' },
    { arm: 'box', role: 'treated' },
    { arm: 'sham', role: 'sham' },
  ],
  'walls-outside': [
    { arm: 'device', role: 'treated' },
    { arm: 'sham', role: 'sham' },
    { arm: 'inner', role: 'control' },
  ],
};

/** With more arms than two the plan says which are compared. */
const compareOf: Partial<Record<Base['arms'], Comparison>> = {
  'sham-and-control': { treated: ['device'], untreated: ['sham', 'bare'] },
  'two-treatments': { treated: ['device'], untreated: ['sham'] },
  'walls-outside': { treated: ['device'], untreated: ['sham'] },
};

const methods = {
  complete: 'randomised',
  pairs: 'matched-pairs',
  'blocks-of-four': 'randomised-in-blocks',
} as const;

export function protocolOf(base: Pick<Base, 'design' | 'outcome' | 'arms' | 'beside'>, seed: number): Protocol {
  const { design, outcome, arms, beside } = base;
  const instrument = instruments[outcome];
  const compare = compareOf[arms];
  const unit = outcome === 'potential' ? 'mV' : '% by mass';
  return {
    title: 'A simulated trial',
    claim: 'The device lowers the moisture of brick walls by a worthwhile amount within a year',
    outcome: { instrument: instrument.instrument, quantity: 'moisture content', unit, better: 'lower' },
    margin: MARGIN * scaleOf(base),
    marginSource: 'agreed with the owners of the walls before the first reading',
    confidence: 0.95,
    arms: armsOf[arms],
    instruments: beside === 'hand-held-meter' ? [instrument, instruments['hand-held-meter']] : [instrument],
    windows: outcome === 'embedded-sensors' ? loggedWindows : windows,
    allocation: { method: methods[design], seed, by: 'a notary outside the trial, at random, from sealed envelopes' },
    selection: 'not-by-moisture',
    blinding: { readers: true, occupants: true, analyst: true },
    disclosures: { funding: 'a public fund for old buildings', interests: 'none' },
    plannedOn: '2024-02-12',
    ...(compare === undefined ? {} : { compare }),
    ...(beside === 'station-out-of-reach' ? { unaffectedAbove_mm: 1500 } : {}),
  };
}
