import { blemish } from '../simulate/blemish.mjs';
import { trueMoisture, withinBrick } from '../simulate/moisture.mjs';
import { randomSource } from '../simulate/random-source.mjs';
import { csv, decimals } from '../simulate/table.mjs';
import { wallName, wallsTable } from '../simulate/walls.mjs';
import { writeTrial } from '../simulate/write-trial.mjs';

const survey = '2024-01-17';
const visits = { before: [survey, '2024-02-14'], after: ['2024-08-14', '2024-09-11'] };

const protocol = {
  format: 'fairwall-trial/1',
  title: 'Ten wet walls and a device',
  claim: 'The device dries wet walls by a worthwhile amount within a summer',
  outcome: { instrument: 'carbide', quantity: 'moisture content', unit: '% by mass', better: 'lower' },
  margin: 2,
  confidence: 0.95,
  arms: [{ arm: 'device', role: 'treated' }],
  instruments: [{ instrument: 'carbide', kind: 'direct' }],
  windows: {
    before: { from: '2024-01-15', to: '2024-02-29' },
    after: { from: '2024-08-01', to: '2024-09-30' },
  },
  allocation: { method: 'chosen', by: 'the seller of the device, who took the ten wettest of thirty walls' },
  selection: 'wettest',
  blinding: { readers: false, occupants: false, analyst: false },
  disclosures: {
    funding: 'in the story, the seller of the device; the walls and the readings are invented',
    interests: 'in the story, the readers work for the seller',
  },
  plannedOn: '2024-01-08',
};

const truth = {
  treatedArm: 'device',
  from: '2024-03-04',
  overDays: 120,
  season: [1.2, 1.1, 0.8, 0.3, -0.3, -0.9, -1.2, -1.3, -1.0, -0.3, 0.4, 0.9],
  sharedChange: -1.5,
  effect: { foot: 0, breast: 0 },
};

const stations = [
  { station: 'foot', height: 'foot', offset: 1.2 },
  { station: 'breast', height: 'breast', offset: -1.2 },
];

const random = randomSource(20240108);

const candidates = Array.from({ length: 30 }, () => ({
  arm: 'device',
  block: '',
  site: random.pick(['north cellar', 'south cellar']),
  material: 'brick',
  thickness_mm: random.pick([215, 330]),
  treatedOn: '2024-03-04',
  level: 7.5 + random.normal(1.8),
  drift: random.normal(0.7),
}));

const readingOn = (wall, station, date) => {
  const spot = random.normal(0.9);
  return withinBrick(trueMoisture(wall, station, date, truth) + spot);
};

const surveyed = candidates.map((wall) => {
  const values = stations.map((station) => readingOn(wall, station, survey));
  return { ...wall, values, mean: (values[0] + values[1]) / 2 };
});
const chosen = surveyed
  .sort((one, other) => other.mean - one.mean)
  .slice(0, 10)
  .map((wall, index) => ({ ...wall, wall: wallName(index + 1) }));

const readings = [...visits.before, ...visits.after].flatMap((date) =>
  chosen.flatMap((wall) =>
    stations.map((station, index) => ({
      date,
      wall: wall.wall,
      station: station.station,
      instrument: 'carbide',
      value: decimals(date === survey ? wall.values[index] : readingOn(wall, station, date), 1),
      reader: 'R1',
      knew_arm: 'yes',
    })),
  ),
);

const diary = [
  { date: '2024-03-04', wall: '', kind: 'installed', note: 'device fixed to all ten walls' },
  { date: '2024-05-02', wall: '', kind: 'ventilation', note: 'cellar windows kept open from now on' },
];

writeTrial(import.meta.dirname, protocol, {
  'walls.csv': csv(wallsTable(chosen)),
  'readings.csv': csv(blemish(readings, { wall: 'W07', station: 'breast', date: '2024-09-11' }, { value: '' })),
  'diary.csv': csv(diary),
});
