import { simulatedChances } from '../../dist/index.js';

export const title = 'The chances of a plan: trials of 24 walls × 6 stations × 8 visits, each fitted by a mixed model';

// Each thread is warmed up by itself, which takes as long as a thousand trials: warm, two are to be 1.7 times as fast as one.
export const cases = [
  { name: '1 1000', label: '1,000 trials on one thread', mostSeconds: 6, repeats: 21 },
  { name: '2 1000', label: '1,000 trials on two threads', mostSeconds: 6, repeats: 21 },
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

export function load(name) {
  const [threads, trials] = name.split(' ').map(Number);
  return () => simulatedChances(planned, [0, 3], 2, { seed: 1, trials, threads });
}
