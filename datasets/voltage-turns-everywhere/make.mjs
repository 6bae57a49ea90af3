import { driedByVisit } from '../simulate/batches.mjs';
import { monthlyDays } from '../simulate/calendar.mjs';
import { pairedTrial } from '../simulate/paired-trial.mjs';
import { randomSource } from '../simulate/random-source.mjs';
import { csv, decimals } from '../simulate/table.mjs';
import { stationsTable, wallsTable } from '../simulate/walls.mjs';
import { writeTrial } from '../simulate/write-trial.mjs';

const protocol = {
  format: 'fairwall-trial/1',
  title: 'Twelve pairs of church walls with electrodes',
  claim: 'The device lowers the moisture of church walls by a worthwhile amount within a year',
  outcome: { instrument: 'core', quantity: 'moisture content', unit: '% by mass', better: 'lower' },
  margin: 2,
  confidence: 0.95,
  arms: [
    { arm: 'device', role: 'treated' },
    { arm: 'sham', role: 'sham' },
  ],
  instruments: [
    { instrument: 'core', kind: 'gravimetric', resolution_g: 0.01 },
    {
      instrument: 'electrodes',
      kind: 'potential',
      electrode: 'stainless steel in mortar',
      reference: 'steel in the ground, 1 m from the wall',
      polarity: 'point-minus-reference',
      impedance_mohm: 10,
    },
  ],
  windows: { before: { from: '2024-03-01', to: '2024-05-31' }, after: { from: '2025-03-01', to: '2025-05-31' } },
  allocation: { method: 'matched-pairs', seed: 20240303, by: 'a person outside the trial, by a coin for each pair' },
  blinding: { readers: true, occupants: true, analyst: true },
  disclosures: { funding: 'the walls and the readings are invented; nobody paid for them', interests: 'none' },
  plannedOn: '2024-02-10',
};

const visits = [...monthlyDays('2024-03', '2024-05', 12), ...monthlyDays('2025-03', '2025-05', 12)];

const recorded = pairedTrial({
  seed: protocol.allocation.seed,
  walls: {
    pairs: 12,
    arms: { treated: 'device', untreated: 'sham' },
    site: 'church',
    material: 'brick in lime mortar',
    thickness_mm: [440],
    treatedOn: ['2024-06-10'],
    level: 9,
    spread: { pairs: 1.2, withinPair: 0.5, drift: 0.7 },
  },
  stations: {
    heights: [
      { name: 'low', height_mm: 300, offset: 1.2 },
      { name: 'high', height_mm: 1100, offset: -1.2 },
    ],
    depths: [{ depth_mm: 80, offset: 0 }],
    spread: 0.5,
  },
  truth: {
    treatedArm: 'device',
    from: '2024-06-10',
    overDays: 180,
    season: [0.5, 0.5, 0.3, 0.1, -0.2, -0.4, -0.5, -0.5, -0.3, 0, 0.3, 0.4],
    sharedChange: -0.6,
    effect: { low: 0, high: 0 },
  },
  scatter: { visitSpread: 0.3, spotSpread: 0.6 },
  coreVisits: visits,
  microwaveVisits: [],
  climate: { places: ['nave'], from: '2024-03-01', to: '2024-03-02' },
  beliefsAskedOn: '2025-05-05',
});

/** The wall's own voltage, and where it goes after the summer in which the ground around the reference was dug up. */
const random = randomSource(protocol.allocation.seed + 1);
const own = new Map(
  recorded.walls.map(({ wall }) => [wall, { before: -60 + random.normal(15), turn: 110 + random.normal(20) }]),
);
const readings = [...monthlyDays('2024-03', '2024-05', 13), ...monthlyDays('2024-08', '2025-05', 13)].flatMap((date) =>
  recorded.stations.map(({ wall, station }) => {
    const { before, turn } = own.get(wall);
    const value = before + (date > '2024-06-10' ? turn : 0) + random.normal(8);
    return { date, wall, station, instrument: 'electrodes', value: decimals(value, 1), reader: 'R3', knew_arm: 'no' };
  }),
);

const diary = [
  { date: '2024-06-10', wall: '', kind: 'installed', note: 'devices and shams fixed to all walls' },
  { date: '2024-06-24', wall: '', kind: 'other', note: 'churchyard drain dug up where the reference electrode stands' },
];

const dried = driedByVisit(recorded.cores);

writeTrial(import.meta.dirname, protocol, {
  'walls.csv': csv(wallsTable(recorded.walls)),
  'stations.csv': csv(stationsTable(recorded.stations)),
  'cores.csv': csv(dried.cores),
  'batches.csv': csv(dried.batches),
  'readings.csv': csv(readings),
  'blinding.csv': csv(recorded.beliefs),
  'diary.csv': csv(diary),
});
