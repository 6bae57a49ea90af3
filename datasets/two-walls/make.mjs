import { blemish } from '../simulate/blemish.mjs';
import { conditionInHumidAir, drillCores } from '../simulate/cores.mjs';
import { randomSource } from '../simulate/random-source.mjs';
import { csv } from '../simulate/table.mjs';
import { stationsOf, stationsTable, wallsTable } from '../simulate/walls.mjs';
import { writeTrial } from '../simulate/write-trial.mjs';

const protocol = {
  format: 'fairwall-trial/1',
  title: 'Two walls of one house',
  claim: 'Injection lowers the moisture of the wall by a worthwhile amount within a year',
  outcome: { instrument: 'core', quantity: 'moisture content', unit: '% by mass', better: 'lower' },
  margin: 2,
  confidence: 0.95,
  arms: [
    { arm: 'injected', role: 'treated' },
    { arm: 'left alone', role: 'control' },
  ],
  instruments: [{ instrument: 'core', kind: 'gravimetric', resolution_g: 0.01 }],
  windows: {
    before: { from: '2024-04-01', to: '2024-06-30' },
    after: { from: '2025-04-01', to: '2025-06-30' },
  },
  allocation: { method: 'chosen', by: 'the owner of the house, who had the wetter wall treated' },
  blinding: { readers: false, occupants: false, analyst: false },
  disclosures: {
    funding: 'in the story, the owner of the house; the walls and the readings are invented',
    interests: 'none',
  },
  plannedOn: '2024-03-15',
};

const common = { block: '', site: 'house', material: 'brick in lime mortar', thickness_mm: 330 };

/** The gutter above W01 leaked until the summer of 2024; its repair, not the injection, takes 3 % off that wall. */
const walls = [
  { ...common, wall: 'W01', arm: 'injected', treatedOn: '2024-07-08', level: 10.5, drift: -3 },
  { ...common, wall: 'W02', arm: 'left alone', treatedOn: '', level: 8.5, drift: 0 },
];

const random = randomSource(20240315);
const stations = stationsOf(random, walls, {
  heights: [
    { name: 'low', height_mm: 200, offset: 2 },
    { name: 'middle', height_mm: 700, offset: 0 },
    { name: 'high', height_mm: 1200, offset: -2 },
  ],
  depths: [
    { depth_mm: 50, offset: -0.3 },
    { depth_mm: 150, offset: 0.3 },
  ],
  spread: 0.5,
});
const drilled = drillCores(random, {
  walls,
  stations,
  visits: ['2024-04-16', '2024-05-14', '2024-06-11', '2025-04-15', '2025-05-13', '2025-06-10'],
  truth: {
    treatedArm: 'injected',
    from: '2024-07-08',
    overDays: 120,
    season: [0.6, 0.6, 0.4, 0.1, -0.2, -0.5, -0.7, -0.6, -0.3, 0.0, 0.3, 0.5],
    sharedChange: -0.4,
    effect: { low: 0, middle: 0, high: 0 },
  },
  visitSpread: 0.3,
  spotSpread: 0.8,
  readerOf: () => 'R1',
  knewArm: 'yes',
});
const cores = conditionInHumidAir(random, drilled, { uptake: 1.1, spread: 0.3 });

const diary = [
  { date: '2024-07-01', wall: 'W01', kind: 'leak', note: 'leaking gutter above the wall found and repaired' },
  { date: '2024-07-08', wall: 'W01', kind: 'installed', note: 'injection at 150 mm above the floor' },
];

writeTrial(import.meta.dirname, protocol, {
  'walls.csv': csv(wallsTable(walls)),
  'stations.csv': csv(stationsTable(stations)),
  'cores.csv': csv(blemish(cores, { station: 'W02-high-150', date: '2024-05-14' }, { humid_g: 'NA' })),
  'diary.csv': csv(diary),
});
