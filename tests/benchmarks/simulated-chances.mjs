import { simulatedChances } from '../../dist/index.js';

export const title = 'The chances of a plan: 1,000 trials of 24 walls × 6 stations × 8 visits, each fitted by a mixed model';

export const cases = [
  { name: '1', label: 'on one thread', mostSeconds: 12, repeats: 3 },
  { name: '2', label: 'on two threads', mostSeconds: 6, repeats: 3 },
];

const planned = {
  design: { kind: 'complete', treated: 12, untreated: 12 },
  spreads: {
    ...{ walls: 1.2, stations: 0.9, visits: 0.4, readings: 1, measurement: 0.1 },
    ...{ autocorrelation: 0.3, correlation: 0 },
  },
  sampling: { stations: 6, visitsBefore: 4, visitsAfter: 4 },
  ...{ dropOut: 0, level: 0.95 },
};

export function prepare() {}

export function load(threads) {
  return () => simulatedChances(planned, [0, 3], 2, { seed: 1, trials: 1000, threads: Number(threads) });
}
