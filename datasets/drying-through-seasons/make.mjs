import { driedByVisit } from '../simulate/batches.mjs';
import { askBeliefs } from '../simulate/beliefs.mjs';
import { blemish, lose } from '../simulate/blemish.mjs';
import { daysBetween, daysFrom, monthlyValue } from '../simulate/calendar.mjs';
import { readClimate } from '../simulate/climate.mjs';
import { drillCores } from '../simulate/cores.mjs';
import { randomSource } from '../simulate/random-source.mjs';
import { csv, decimals } from '../simulate/table.mjs';
import { pairedWalls, stationsOf, stationsTable, wallsTable } from '../simulate/walls.mjs';
import { writeTrial } from '../simulate/write-trial.mjs';

const protocol = {
  format: 'fairwall-trial/1',
  title: 'Ten pairs of store walls through two summers',
  claim: 'The barrier makes walls dry faster, by a worthwhile amount within a year',
  outcome: { instrument: 'core', quantity: 'moisture content', unit: '% by mass', better: 'lower' },
  margin: 1,
  dryBelow: 6,
  confidence: 0.95,
  arms: [
    { arm: 'barrier', role: 'treated' },
    { arm: 'holes only', role: 'sham' },
  ],
  instruments: [{ instrument: 'core', kind: 'gravimetric', resolution_g: 0.01 }],
  windows: {
    before: { from: '2024-03-01', to: '2024-05-31' },
    after: { from: '2025-03-01', to: '2025-05-31' },
  },
  allocation: { method: 'matched-pairs', seed: 20240117, by: 'a person outside the trial, by a coin for each pair' },
  blinding: { readers: true, occupants: true, analyst: true },
  disclosures: { funding: 'the walls and the readings are invented; nobody paid for them', interests: 'none' },
  plannedOn: '2024-01-20',
};

/** Per day; what walls lose in the long run, in per cent by mass. */
const rate = { barrier: 0.006, 'holes only': 0.0025 };
const lost = 7;
const treatedOn = '2024-06-04';

const random = randomSource(protocol.allocation.seed);
const walls = pairedWalls(random, {
  pairs: 10,
  arms: { treated: 'barrier', untreated: 'holes only' },
  site: 'store',
  material: 'brick in lime mortar',
  thickness_mm: [225, 340],
  treatedOn: [treatedOn],
  level: 11,
  spread: { pairs: 0.8, withinPair: 0.4, drift: 0 },
});
const own = new Map(
  walls.map(({ wall, arm }) => [
    wall,
    { rate: rate[arm] * Math.exp(random.normal(0.18)), lost: lost + random.normal(0.4) },
  ]),
);
const stations = stationsOf(random, walls, {
  heights: [
    { name: 'low', height_mm: 200, offset: 1 },
    { name: 'middle', height_mm: 600, offset: 0 },
    { name: 'high', height_mm: 1000, offset: -1 },
  ],
  depths: [{ depth_mm: 100, offset: 0 }],
  spread: 0.4,
});
const readerOf = (wall) => (Number(wall.block.slice(1)) % 2 === 0 ? 'R1' : 'R2');
const visits = daysBetween('2024-03-05', '2025-11-25', 21);
const recorded = drillCores(random, {
  walls,
  stations,
  visits,
  truth: {
    season: [0.6, 0.6, 0.4, 0.1, -0.3, -0.5, -0.7, -0.6, -0.3, 0, 0.3, 0.5],
    course: (wall, day) => {
      const { rate: own_rate, lost: own_lost } = own.get(wall.wall);
      return own_lost * Math.expm1(-own_rate * Math.max(0, daysFrom(treatedOn, day)));
    },
  },
  visitSpread: 0.15,
  spotSpread: 0.5,
  readerOf,
  knewArm: 'no',
});
const air = readClimate(random, { places: ['yard'], from: '2024-03-01', to: '2025-11-30' });
/** Rain of the week at the yard; hours for which the stores were heated in the week. Neither moves a wall. */
const weekly = randomSource(protocol.allocation.seed + 1);
const rain = [17, 13, 12, 11, 12, 12, 14, 14, 14, 19, 19, 18];
const isHeated = (day) => day.slice(5) >= '10-14' || day.slice(5) <= '04-07';
const climate = air.flatMap((row) => {
  const day = row.time.slice(0, 10);
  const fallen = monthlyValue(rain, day) * Math.max(0, 1 + weekly.normal(0.7));
  const heated = isHeated(day) ? 70 + weekly.normal(12) : 0;
  return [
    { ...row, rain_mm: decimals(fallen, 1), heating_h: '' },
    {
      time: row.time,
      place: 'store',
      temperature_c: '',
      relative_humidity_pct: '',
      rain_mm: '',
      heating_h: decimals(heated, 0),
    },
  ];
});
const beliefs = askBeliefs(random, {
  walls,
  date: '2025-11-25',
  arms: ['barrier', 'holes only'],
  people: (wall) => [
    { person: readerOf(wall), role: 'reader' },
    { person: `keeper of ${wall.site}`, role: 'occupant' },
  ],
});
const diary = [
  {
    date: treatedOn,
    wall: '',
    kind: 'installed',
    note: 'holes drilled in all walls; half of them filled with the barrier',
  },
  { date: '2024-10-14', wall: '', kind: 'heating', note: 'heating of all stores turned on, as every year' },
  { date: '2025-04-07', wall: '', kind: 'heating', note: 'heating of all stores turned off' },
];
const cores = lose(blemish(recorded, { station: 'W07-low-100', date: visits[9] }, { wet_g: 'NA' }), {
  station: 'W14-high-100',
  date: visits[15],
});

const dried = driedByVisit(cores);

writeTrial(import.meta.dirname, protocol, {
  'walls.csv': csv(wallsTable(walls)),
  'stations.csv': csv(stationsTable(stations)),
  'cores.csv': csv(dried.cores),
  'batches.csv': csv(dried.batches),
  'climate.csv': csv(climate),
  'blinding.csv': csv(beliefs),
  'diary.csv': csv(diary),
});
