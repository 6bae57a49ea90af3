import { driedByVisit } from '../simulate/batches.mjs';
import { blemish, lose } from '../simulate/blemish.mjs';
import { monthlyDays } from '../simulate/calendar.mjs';
import { pairedTrial } from '../simulate/paired-trial.mjs';
import { csv } from '../simulate/table.mjs';
import { stationsTable, wallsTable } from '../simulate/walls.mjs';
import { writeTrial } from '../simulate/write-trial.mjs';

const protocol = {
  format: 'fairwall-trial/1',
  title: 'Twelve pairs of garden walls',
  claim: 'The device lowers the moisture of brick garden walls by a worthwhile amount within a year',
  outcome: { instrument: 'core', quantity: 'moisture content', unit: '% by mass', better: 'lower' },
  margin: 2,
  confidence: 0.95,
  arms: [
    { arm: 'device', role: 'treated' },
    { arm: 'sham', role: 'sham' },
  ],
  instruments: [
    { instrument: 'core', kind: 'gravimetric', resolution_g: 0.01 },
    { instrument: 'microwave', kind: 'microwave' },
  ],
  windows: {
    before: { from: '2024-03-01', to: '2024-05-31' },
    after: { from: '2025-03-01', to: '2025-05-31' },
  },
  allocation: { method: 'matched-pairs', seed: 20240201, by: 'a person outside the trial, by a coin for each pair' },
  blinding: { readers: true, occupants: true, analyst: true },
  disclosures: {
    funding: 'the walls and the readings are invented; nobody paid for them',
    interests: 'none',
  },
  plannedOn: '2024-02-01',
};

const recorded = pairedTrial({
  seed: protocol.allocation.seed,
  walls: {
    pairs: 12,
    arms: { treated: 'device', untreated: 'sham' },
    site: 'garden',
    material: 'brick in lime mortar',
    thickness_mm: [215, 330],
    treatedOn: ['2024-06-10', '2024-06-11', '2024-06-12'],
    level: 9.2,
    spread: { pairs: 1.4, withinPair: 0.6, drift: 0.8 },
  },
  stations: {
    heights: [
      { name: 'low', height_mm: 200, offset: 1.8 },
      { name: 'middle', height_mm: 600, offset: 0 },
      { name: 'high', height_mm: 1000, offset: -1.8 },
    ],
    depths: [
      { depth_mm: 40, offset: -0.3 },
      { depth_mm: 120, offset: 0.3 },
    ],
    spread: 0.5,
  },
  truth: {
    treatedArm: 'device',
    from: '2024-06-12',
    overDays: 180,
    season: [0.9, 0.8, 0.5, 0.1, -0.4, -0.8, -1.0, -0.9, -0.5, 0.0, 0.5, 0.8],
    sharedChange: -0.6,
    effect: { low: -5, middle: -4, high: -3 },
  },
  scatter: { visitSpread: 0.3, spotSpread: 0.8 },
  coreVisits: [...monthlyDays('2024-03', '2024-05', 12), ...monthlyDays('2025-03', '2025-05', 12)],
  microwaveVisits: monthlyDays('2024-03', '2025-05', 13),
  climate: { places: ['garden 03', 'garden 09'], from: '2024-03-01', to: '2025-05-31' },
  beliefsAskedOn: '2025-05-28',
});

const diary = [
  { date: '2024-06-12', wall: '', kind: 'installed', note: 'devices and shams fixed to all walls, 10 to 12 June' },
  { date: '2024-11-20', wall: '', kind: 'other', note: 'first frost; readings as planned' },
  { date: '2025-02-03', wall: '', kind: 'other', note: 'balance checked with a 50 g mass: 50.00 g' },
];

const cores = lose(blemish(recorded.cores, { station: 'W05-high-40', date: '2024-04-12' }, { wet_g: 'NA' }), {
  station: 'W16-middle-120',
  date: '2025-04-12',
});
const readings = blemish(recorded.readings, { station: 'W11-low-40', date: '2024-09-13' }, { value: '' });
const climate = blemish(recorded.climate, { time: '2024-12-06T12:00', place: 'garden 03' }, { temperature_c: 'NA' });

const dried = driedByVisit(cores);

writeTrial(import.meta.dirname, protocol, {
  'walls.csv': csv(wallsTable(recorded.walls)),
  'stations.csv': csv(stationsTable(recorded.stations)),
  'cores.csv': csv(dried.cores),
  'batches.csv': csv(dried.batches),
  'readings.csv': csv(readings),
  'climate.csv': csv(climate),
  'blinding.csv': csv(recorded.beliefs),
  'diary.csv': csv(diary),
});
