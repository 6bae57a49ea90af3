import { driedByVisit } from '../simulate/batches.mjs';
import { blemish, lose } from '../simulate/blemish.mjs';
import { monthlyDays } from '../simulate/calendar.mjs';
import { pairedTrial } from '../simulate/paired-trial.mjs';
import { commaAndSemicolon, csv } from '../simulate/table.mjs';
import { stationsTable, wallsTable } from '../simulate/walls.mjs';
import { writeTrial } from '../simulate/write-trial.mjs';

const protocol = {
  format: 'fairwall-trial/1',
  title: 'Twelve pairs of cellar walls through a dry year',
  claim: 'The box on the wall lowers the moisture of cellar walls by a worthwhile amount within a year',
  outcome: { instrument: 'core', quantity: 'moisture content', unit: '% by mass', better: 'lower' },
  margin: 2,
  confidence: 0.95,
  arms: [
    { arm: 'box', role: 'treated' },
    { arm: 'sham', role: 'sham' },
  ],
  instruments: [
    { instrument: 'core', kind: 'gravimetric' },
    { instrument: 'microwave', kind: 'microwave' },
  ],
  windows: {
    before: { from: '2023-09-01', to: '2023-11-30' },
    after: { from: '2024-09-01', to: '2024-11-30' },
  },
  allocation: { method: 'matched-pairs', seed: 20230801, by: 'a person outside the trial, by a coin for each pair' },
  blinding: { readers: true, occupants: true, analyst: true },
  disclosures: {
    funding: 'the walls and the readings are invented; nobody paid for them',
    interests: 'none',
  },
  plannedOn: '2023-08-01',
};

const recorded = pairedTrial({
  seed: protocol.allocation.seed,
  walls: {
    pairs: 12,
    arms: { treated: 'box', untreated: 'sham' },
    site: 'cellar',
    material: 'brick in lime mortar',
    thickness_mm: [330, 440],
    treatedOn: ['2023-12-05', '2023-12-06'],
    level: 9.6,
    spread: { pairs: 1.4, withinPair: 0.6, drift: 0.7 },
  },
  stations: {
    heights: [
      { name: 'low', height_mm: 250, offset: 1.6 },
      { name: 'middle', height_mm: 750, offset: 0 },
      { name: 'high', height_mm: 1250, offset: -1.6 },
    ],
    depths: [{ depth_mm: 100, offset: 0 }],
    spread: 0.5,
  },
  truth: {
    treatedArm: 'box',
    from: '2023-12-06',
    overDays: 240,
    season: [0.5, 0.6, 0.5, 0.3, 0.0, -0.3, -0.5, -0.6, -0.5, -0.3, 0.0, 0.3],
    sharedChange: -3,
    effect: { low: 0, middle: 0, high: 0 },
  },
  scatter: { visitSpread: 0.3, spotSpread: 0.8 },
  coreVisits: [
    ...['2023-09-05', '2023-10-03', '2023-10-31', '2023-11-28'],
    ...['2024-09-03', '2024-10-01', '2024-10-29', '2024-11-26'],
  ],
  microwaveVisits: monthlyDays('2023-09', '2024-11', 14),
  climate: { places: ['cellar 05'], from: '2023-09-01', to: '2024-11-30' },
  beliefsAskedOn: '2024-11-27',
});

const diary = [
  { date: '2023-12-06', wall: '', kind: 'installed', note: 'boxes and shams fixed to all walls, 5 and 6 December' },
  { date: '2024-08-01', wall: '', kind: 'other', note: 'driest spring and summer that the occupants remember' },
];

const cores = lose(blemish(recorded.cores, { station: 'W08-low-100', date: '2024-10-01' }, { dry_g: 'NA' }), {
  station: 'W13-high-100',
  date: '2023-10-31',
});
const readings = blemish(recorded.readings, { station: 'W20-middle-100', date: '2024-06-14' }, { value: 'NA' });

const written = (records) => csv(records, commaAndSemicolon);

const dried = driedByVisit(cores);

writeTrial(import.meta.dirname, protocol, {
  'walls.csv': written(wallsTable(recorded.walls)),
  'stations.csv': written(stationsTable(recorded.stations)),
  'cores.csv': written(dried.cores),
  'batches.csv': written(dried.batches),
  'readings.csv': written(readings),
  'climate.csv': written(recorded.climate),
  'blinding.csv': written(recorded.beliefs),
  'diary.csv': written(diary),
});
