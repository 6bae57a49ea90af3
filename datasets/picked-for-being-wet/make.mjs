import { randomSource } from '../simulate/random-source.mjs';
import { csv, decimals } from '../simulate/table.mjs';
import { writeTrial } from '../simulate/write-trial.mjs';

/** Walls read once when they were looked at; the twelve wettest were treated, twelve others were not. */
const random = randomSource(20240404);
const [level, between, within, looked, cutoff] = [7, 2.5, 1.6, 60, 9];
const walls = Array.from({ length: looked }, () => {
  const own = level + random.normal(between);
  return { own, first: own + random.normal(within) };
});
const wettest = walls.filter(({ first }) => first > cutoff).slice(0, 12);
const others = walls.filter(({ first }) => first <= cutoff).slice(0, 12);
const chosen = [
  ...wettest.map((wall) => ({ ...wall, arm: 'injected' })),
  ...others.map((wall) => ({ ...wall, arm: 'left alone' })),
];

const protocol = {
  format: 'fairwall-trial/1',
  title: 'The wettest walls of a terrace, injected',
  claim: 'The injection lowers the moisture of terrace walls by a worthwhile amount within a year',
  outcome: { instrument: 'core', quantity: 'moisture content', unit: '% by mass', better: 'lower' },
  margin: 1,
  confidence: 0.95,
  arms: [
    { arm: 'injected', role: 'treated' },
    { arm: 'left alone', role: 'control' },
  ],
  instruments: [{ instrument: 'core', kind: 'direct' }],
  windows: { before: { from: '2024-03-01', to: '2024-04-30' }, after: { from: '2025-03-01', to: '2025-04-30' } },
  allocation: { method: 'chosen', by: 'the owner of the terrace: the wettest first' },
  selection: 'wettest',
  screened: { walls: looked, mean: level, standardDeviation: 2.97, cutoff },
  blinding: { readers: true, occupants: false, analyst: false },
  disclosures: { funding: 'the walls and the readings are invented; nobody paid for them', interests: 'none' },
  plannedOn: '2024-02-10',
};

const name = (index) => `W${String(index + 1).padStart(2, '0')}`;
const reading = (date, index, value) => ({
  ...{
    date,
    wall: name(index),
    instrument: 'core',
    value: decimals(Math.max(0.4, value), 2),
    reader: 'R1',
    knew_arm: 'no',
  },
});
const readings = chosen.flatMap(({ own, first }, index) => [
  reading('2024-03-12', index, first),
  // Four walls were read again before the work, too few to be the before values and enough to show how readings scatter.
  ...(index % 6 === 0 ? [reading('2024-04-16', index, own + random.normal(within))] : []),
  reading('2025-03-12', index, own - 0.3 + random.normal(within)),
]);

writeTrial(import.meta.dirname, protocol, {
  'walls.csv': csv(
    chosen.map(({ arm }, index) => ({ wall: name(index), arm, treated_on: arm === 'injected' ? '2024-06-10' : '' })),
  ),
  'readings.csv': csv(readings),
});
