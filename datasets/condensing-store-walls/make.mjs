import { driedByVisit } from '../simulate/batches.mjs';
import { monthlyDays, monthlyValue } from '../simulate/calendar.mjs';
import { pairedTrial } from '../simulate/paired-trial.mjs';
import { randomSource } from '../simulate/random-source.mjs';
import { csv, decimals } from '../simulate/table.mjs';
import { stationsTable, wallsTable } from '../simulate/walls.mjs';
import { writeTrial } from '../simulate/write-trial.mjs';

const protocol = {
  format: 'fairwall-trial/1',
  title: 'Eight pairs of walls in unheated stores that condense',
  claim: 'The injected barrier lowers the moisture of the walls by a worthwhile amount within a year',
  outcome: { instrument: 'core', quantity: 'moisture content', unit: '% by mass', better: 'lower' },
  against: 'rising-damp',
  margin: 2,
  confidence: 0.95,
  arms: [
    { arm: 'barrier', role: 'treated' },
    { arm: 'holes', role: 'sham' },
  ],
  instruments: [{ instrument: 'core', kind: 'gravimetric', resolution_g: 0.01 }],
  windows: {
    before: { from: '2023-03-01', to: '2023-05-31' },
    after: { from: '2024-03-01', to: '2024-05-31' },
  },
  allocation: { method: 'matched-pairs', seed: 20230206, by: 'a person outside the trial, by a coin for each pair' },
  blinding: { readers: true, occupants: true, analyst: true },
  disclosures: {
    funding: 'the walls and the readings are invented; nobody paid for them',
    interests: 'none',
  },
  plannedOn: '2023-02-10',
};

const treatedOn = '2023-06-12';
const recorded = pairedTrial({
  seed: protocol.allocation.seed,
  walls: {
    pairs: 8,
    arms: { treated: 'barrier', untreated: 'holes' },
    site: 'store',
    material: 'brick in lime mortar',
    thickness_mm: [330],
    treatedOn: [treatedOn],
    level: 8,
    spread: { pairs: 0.9, withinPair: 0.4, drift: 0.5 },
  },
  stations: {
    heights: [
      { name: 'low', height_mm: 200, offset: 0 },
      { name: 'middle', height_mm: 800, offset: 0 },
      { name: 'high', height_mm: 1400, offset: 0 },
    ],
    depths: [
      { depth_mm: 20, offset: 1.5 },
      { depth_mm: 120, offset: -1.5 },
    ],
    spread: 0.3,
  },
  truth: {
    treatedArm: 'barrier',
    from: treatedOn,
    overDays: 120,
    season: [0.9, 1.0, 0.8, 0.5, 0.1, -0.5, -0.9, -1.0, -0.6, 0.0, 0.4, 0.7],
    sharedChange: 0,
    effect: { low: 0, middle: 0, high: 0 },
  },
  scatter: { visitSpread: 0.2, spotSpread: 0.4 },
  coreVisits: [...monthlyDays('2023-03', '2023-05', 14), ...monthlyDays('2024-03', '2024-05', 14)],
  microwaveVisits: [],
  climate: { places: ['passage'], from: '2023-03-01', to: '2024-05-31' },
  beliefsAskedOn: '2024-05-29',
});

/** The stores are closed: their air is more humid than that outside, and their walls follow the year a month behind it. */
const random = randomSource(protocol.allocation.seed + 1);
const wall_c = [4, 3.5, 4.5, 7, 10.5, 13.5, 16, 16.5, 14.5, 11.5, 8, 5.5];
const climate = recorded.climate.map((reading) => ({
  ...reading,
  relative_humidity_pct: decimals(Math.min(99, Number(reading.relative_humidity_pct) + 8), 0),
  surface_c: decimals(monthlyValue(wall_c, reading.time.slice(0, 10)) + random.normal(0.4), 1),
}));

const dried = driedByVisit(recorded.cores);

writeTrial(import.meta.dirname, protocol, {
  'walls.csv': csv(wallsTable(recorded.walls)),
  'stations.csv': csv(stationsTable(recorded.stations)),
  'cores.csv': csv(dried.cores),
  'batches.csv': csv(dried.batches),
  'climate.csv': csv(climate),
  'blinding.csv': csv(recorded.beliefs),
  'diary.csv': csv([
    {
      date: treatedOn,
      wall: '',
      kind: 'installed',
      note: 'all walls drilled and filled in one row: with the barrier, or with plain mortar',
    },
  ]),
});
