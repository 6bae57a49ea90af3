import type { Allocation, Instrument, Protocol } from '../../trial/index.js';
import { simulatedWindows } from './simulated-days.js';
import type { SimulatedDesign, SimulatedLayout } from './simulated-design.js';

const methods: Readonly<Record<SimulatedLayout, Allocation['method']>> = {
  complete: 'randomised',
  pairs: 'matched-pairs',
  'blocks-of-four': 'randomised-in-blocks',
  houses: 'randomised',
};

const instruments: Readonly<Record<SimulatedDesign['instrument'], Instrument>> = {
  cores: { instrument: 'core', kind: 'gravimetric', resolution_g: 0.01 },
  meter: { instrument: 'meter', kind: 'microwave' },
};

/** The plan of a simulated trial, which states everything that firm evidence rests on. */
export function protocolOf(design: SimulatedDesign, seed: number): Protocol {
  const instrument = instruments[design.instrument];
  const isMeter = design.instrument === 'meter';
  return {
    title: 'A trial of simulated walls',
    claim: 'The device dries walls by a worthwhile amount within a year',
    outcome: {
      ...{ instrument: instrument.instrument, quantity: isMeter ? 'index' : 'moisture content' },
      ...{ unit: isMeter ? 'index' : '% by mass', better: 'lower' },
    },
    margin: isMeter ? 5 * design.margin : design.margin,
    marginSource: 'agreed with the owners of the walls before the first reading',
    confidence: 0.95,
    arms: [
      { arm: 'device', role: 'treated' },
      { arm: 'sham', role: 'sham' },
    ],
    instruments: [instrument],
    windows: simulatedWindows,
    allocation: {
      ...{ method: methods[design.layout], seed, by: 'a notary outside the trial, at random, from sealed envelopes' },
      unit: design.layout === 'houses' ? 'site' : 'wall',
    },
    selection: 'not-by-moisture',
    blinding: {
      readers: design.readersKnow === 'nothing' || design.readersKnow === 'and-hide-it',
      occupants: true,
      analyst: true,
    },
    disclosures: { funding: 'a public fund for old buildings', interests: 'none' },
    plannedOn: '2024-02-12',
  };
}
