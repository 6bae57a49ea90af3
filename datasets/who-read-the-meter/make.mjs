import { monthlyDays } from '../simulate/calendar.mjs';
import { pairedTrial } from '../simulate/paired-trial.mjs';
import { randomSource } from '../simulate/random-source.mjs';
import { csv, decimals } from '../simulate/table.mjs';
import { stationsTable, wallsTable } from '../simulate/walls.mjs';
import { writeTrial } from '../simulate/write-trial.mjs';

const protocol = {
  format: 'fairwall-trial/1',
  title: 'Ten pairs of kitchen walls, each read by two people',
  claim: 'The coating lowers the meter index of kitchen walls by a worthwhile amount within a year',
  outcome: { instrument: 'microwave', quantity: 'meter index', unit: 'index points', better: 'lower' },
  margin: 5,
  confidence: 0.95,
  arms: [
    { arm: 'coating', role: 'treated' },
    { arm: 'plain paint', role: 'sham' },
  ],
  instruments: [{ instrument: 'microwave', kind: 'microwave' }],
  windows: { before: { from: '2024-03-01', to: '2024-05-31' }, after: { from: '2025-03-01', to: '2025-05-31' } },
  allocation: { method: 'matched-pairs', seed: 20240222, by: 'a person outside the trial, by a coin for each pair' },
  blinding: { readers: true, occupants: true, analyst: true },
  disclosures: { funding: 'the walls and the readings are invented; nobody paid for them', interests: 'none' },
  plannedOn: '2024-02-20',
};

/** What the person who knew reads off a treated wall, in index points: the meter follows the hand. */
const hope = -14;
const visits = [...monthlyDays('2024-03', '2024-05', 12), ...monthlyDays('2025-03', '2025-05', 12)];

const recorded = pairedTrial({
  seed: protocol.allocation.seed,
  walls: {
    pairs: 10,
    arms: { treated: 'coating', untreated: 'plain paint' },
    site: 'kitchen',
    material: 'brick in lime mortar',
    thickness_mm: [215],
    treatedOn: ['2024-06-10'],
    level: 9,
    spread: { pairs: 1.2, withinPair: 0.5, drift: 0.4 },
  },
  stations: {
    heights: [
      { name: 'low', height_mm: 200, offset: 1.2 },
      { name: 'high', height_mm: 900, offset: -1.2 },
    ],
    depths: [{ depth_mm: 40, offset: 0 }],
    spread: 0.5,
  },
  truth: {
    treatedArm: 'coating',
    from: '2024-06-10',
    overDays: 120,
    season: [0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0],
    sharedChange: -0.5,
    effect: { low: 0, high: 0 },
  },
  scatter: { visitSpread: 0.3, spotSpread: 0.5 },
  coreVisits: [],
  microwaveVisits: visits,
  climate: { places: ['kitchen 01'], from: '2024-03-01', to: '2024-03-02' },
  beliefsAskedOn: '2025-03-11',
});

const random = randomSource(protocol.allocation.seed + 1);
const treated = new Set(recorded.walls.filter(({ arm }) => arm === 'coating').map(({ wall }) => wall));
const isAfter = (date) => date > '2024-06-10';

/** Every station is read twice on a day: by Blind, who never knew, and by Keen, who helped with the coating. */
const readings = recorded.readings.flatMap((reading) => {
  const again = Number(reading.value.replace('<', '')) + random.normal(3);
  const shaded = again + (isAfter(reading.date) && treated.has(reading.wall) ? hope : 0);
  return [
    { ...reading, reader: 'Blind', knew_arm: 'no' },
    {
      ...reading,
      value: decimals(Math.max(5, shaded), 1),
      reader: 'Keen',
      knew_arm: isAfter(reading.date) ? 'yes' : 'no',
    },
  ];
});

const blinding = recorded.walls.flatMap(({ wall, arm }) => [
  {
    date: '2025-03-11',
    person: 'Blind',
    role: 'reader',
    wall,
    believed_arm: random.pick(['coating', 'plain paint', 'unknown']),
    why: 'a guess',
  },
  { date: '2025-03-11', person: 'Keen', role: 'reader', wall, believed_arm: arm, why: 'helped with the work' },
]);

writeTrial(import.meta.dirname, protocol, {
  'walls.csv': csv(wallsTable(recorded.walls)),
  'stations.csv': csv(stationsTable(recorded.stations)),
  'readings.csv': csv(readings),
  'blinding.csv': csv(blinding),
});
