import { driedByVisit } from '../simulate/batches.mjs';
import { monthlyDays, ramp } from '../simulate/calendar.mjs';
import { pairedTrial } from '../simulate/paired-trial.mjs';
import { randomSource } from '../simulate/random-source.mjs';
import { readResistance } from '../simulate/resistance.mjs';
import { csv, decimals } from '../simulate/table.mjs';
import { stationsTable, wallsTable } from '../simulate/walls.mjs';
import { writeTrial } from '../simulate/write-trial.mjs';

const protocol = {
  format: 'fairwall-trial/1',
  title: 'Ten pairs of salty chapel walls, three instruments',
  claim: 'The poultice lowers the moisture of salty brick walls by a worthwhile amount within a year',
  outcome: { instrument: 'core', quantity: 'moisture content', unit: '% by mass', better: 'lower' },
  margin: 2,
  confidence: 0.95,
  arms: [
    { arm: 'poultice', role: 'treated' },
    { arm: 'clay', role: 'sham' },
  ],
  instruments: [
    { instrument: 'core', kind: 'gravimetric', resolution_g: 0.01 },
    { instrument: 'resistance', kind: 'resistance' },
    { instrument: 'microwave', kind: 'microwave' },
  ],
  windows: {
    before: { from: '2023-03-01', to: '2023-05-31' },
    after: { from: '2024-03-01', to: '2024-05-31' },
  },
  allocation: { method: 'matched-pairs', seed: 20230117, by: 'a person outside the trial, by a coin for each pair' },
  blinding: { readers: true, occupants: true, analyst: true },
  disclosures: {
    funding: 'the walls and the readings are invented; nobody paid for them',
    interests: 'none',
  },
  plannedOn: '2023-01-20',
};

const treatedOn = '2023-06-14';
const meterVisits = [...monthlyDays('2023-03', '2023-05', 13), ...monthlyDays('2024-03', '2024-05', 13)];
const coreVisits = [...monthlyDays('2023-03', '2023-05', 12), ...monthlyDays('2024-03', '2024-05', 12)];
const truth = {
  treatedArm: 'poultice',
  from: treatedOn,
  overDays: 120,
  season: [0.9, 0.8, 0.5, 0.1, -0.4, -0.8, -1.0, -0.9, -0.5, 0.0, 0.5, 0.8],
  sharedChange: -0.5,
  effect: { low: 0, middle: 0, high: 0 },
};
const recorded = pairedTrial({
  seed: protocol.allocation.seed,
  walls: {
    pairs: 10,
    arms: { treated: 'poultice', untreated: 'clay' },
    site: 'chapel',
    material: 'brick in lime mortar',
    thickness_mm: [330, 440],
    treatedOn: [treatedOn],
    level: 8.5,
    spread: { pairs: 1.2, withinPair: 0.5, drift: 0.6 },
  },
  stations: {
    heights: [
      { name: 'low', height_mm: 200, offset: 2 },
      { name: 'middle', height_mm: 700, offset: 0 },
      { name: 'high', height_mm: 1200, offset: -2 },
    ],
    depths: [{ depth_mm: 60, offset: 0 }],
    spread: 0.5,
  },
  truth,
  scatter: { visitSpread: 0.2, spotSpread: 0.5 },
  coreVisits,
  microwaveVisits: meterVisits,
  climate: { places: ['chapel 02'], from: '2023-03-01', to: '2024-05-31' },
  beliefsAskedOn: '2024-05-28',
});

/** Salts add 12 to the resistance index, give or take the wall; the poultice takes all of it out, the clay nothing. */
const random = randomSource(protocol.allocation.seed + 1);
const salts = new Map(recorded.walls.map(({ wall }) => [wall, 12 + random.normal(2)]));
const saltsOn = (wall, date) =>
  salts.get(wall.wall) * (wall.arm === 'poultice' ? 1 - ramp(truth.from, truth.overDays, date) : 1);
const readerOf = (wall) => (Number(wall.block.slice(1)) % 2 === 0 ? 'R1' : 'R2');
const resistance = readResistance(random, {
  walls: recorded.walls,
  stations: recorded.stations,
  visits: meterVisits,
  truth,
  readerOf,
  knewArm: 'no',
  saltsOn,
});

/** The microwave meter loses 10 points over the year, whatever it is held to. */
const lost = (date) => 10 * ramp('2023-03-13', 425, date);
const drifted = (value, date) => {
  if (value.startsWith('<')) return value;
  const index = Number(value) - lost(date);
  return index < 5 ? '<5' : decimals(index, 1);
};
const microwave = recorded.readings.map((reading) => ({ ...reading, value: drifted(reading.value, reading.date) }));

/** Both meters are held to two sealed blocks on each visit. */
const blocks = { microwave: { pale: 22, dark: 61 }, resistance: { pale: 18, dark: 47 } };
const checks = meterVisits.flatMap((date) =>
  Object.entries(blocks).flatMap(([instrument, levels]) =>
    Object.entries(levels).map(([block, level]) => ({
      date,
      instrument,
      block,
      value: decimals(level - (instrument === 'microwave' ? lost(date) : 0) + random.normal(0.6), 1),
      reader: 'R1',
    })),
  ),
);

/** Drillings beside the first and the last cores, analysed for salts: where the meter sees 12 points of them stand 0.6 % of chloride. */
const saltVisits = [coreVisits[0], coreVisits.at(-1)];
const analysis = randomSource(protocol.allocation.seed + 2);
const analysed = (value, least) => (value < least ? `<${least}` : decimals(value, 3));
const saltTable = saltVisits.flatMap((date) =>
  recorded.stations.map((station) => {
    const wall = recorded.walls.find((each) => each.wall === station.wall);
    const here = station.height === 'high' ? 1.3 : station.height === 'low' ? 0.7 : 1;
    const load = (here * saltsOn(wall, date)) / 12;
    return {
      date,
      wall: wall.wall,
      height_mm: station.height_mm,
      depth_mm: station.depth_mm,
      chloride_pct: analysed(0.6 * load + analysis.normal(0.03), 0.01),
      nitrate_pct: analysed(0.15 * load + analysis.normal(0.01), 0.01),
      sulfate_pct: analysed(0.2 + analysis.normal(0.03), 0.01),
      scheme: 'wta-2-6-99',
    };
  }),
);

const dried = driedByVisit(recorded.cores);

writeTrial(import.meta.dirname, protocol, {
  'walls.csv': csv(wallsTable(recorded.walls)),
  'stations.csv': csv(stationsTable(recorded.stations)),
  'cores.csv': csv(dried.cores),
  'batches.csv': csv(dried.batches),
  'readings.csv': csv([...resistance, ...microwave]),
  'checks.csv': csv(checks),
  'salts.csv': csv(saltTable),
  'climate.csv': csv(recorded.climate),
  'blinding.csv': csv(recorded.beliefs),
  'diary.csv': csv([
    {
      date: treatedOn,
      wall: '',
      kind: 'installed',
      note: 'poultices and plain clay put on all walls, taken off after three weeks',
    },
    { date: '2023-12-04', wall: '', kind: 'other', note: 'both meters kept at the same place over winter' },
  ]),
});
