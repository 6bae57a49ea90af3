import { monthlyDays } from '../simulate/calendar.mjs';
import { trueMoisture, withinBrick } from '../simulate/moisture.mjs';
import { pairedTrial } from '../simulate/paired-trial.mjs';
import { randomSource } from '../simulate/random-source.mjs';
import { csv, decimals } from '../simulate/table.mjs';
import { stationsTable, wallsTable } from '../simulate/walls.mjs';
import { writeTrial } from '../simulate/write-trial.mjs';

const protocol = {
  format: 'fairwall-trial/1',
  title: 'Eight pairs of cellar walls, cored from foot to head',
  claim: 'The slot lowers the moisture of brick cellar walls by a worthwhile amount within a year',
  outcome: { instrument: 'core', quantity: 'moisture content', unit: '% by mass', better: 'lower' },
  margin: 1,
  confidence: 0.95,
  arms: [
    { arm: 'slot', role: 'treated' },
    { arm: 'filled slot', role: 'sham' },
  ],
  instruments: [{ instrument: 'core', kind: 'gravimetric', resolution_g: 0.01 }],
  windows: {
    before: { from: '2023-03-01', to: '2023-05-31' },
    after: { from: '2024-03-01', to: '2024-05-31' },
  },
  allocation: { method: 'matched-pairs', seed: 20230209, by: 'a person outside the trial, by a coin for each pair' },
  selection: 'not-by-moisture',
  blinding: { readers: true, occupants: true, analyst: true },
  disclosures: {
    funding: 'the walls and the readings are invented; nobody paid for them',
    interests: 'none',
  },
  plannedOn: '2023-02-12',
};

const visits = [...monthlyDays('2023-03', '2023-05', 14), ...monthlyDays('2024-03', '2024-05', 14)];
const treatedOn = '2023-06-13';
const level = 6;
const depths = [40, 150];

/** A smooth front: 12 % at the foot, 2 % above, half way at `front_mm`; the slot takes it from 750 mm to 450 mm. */
const profile = (height_mm, front_mm) => 2 + 10 / (1 + Math.exp((height_mm - front_mm) / 110));
const heights = { foot: 150, knee: 400, middle: 700, chest: 1000, head: 1400 };
const effect = Object.fromEntries(
  Object.entries(heights).map(([name, height_mm]) => [name, profile(height_mm, 450) - profile(height_mm, 750)]),
);
const truth = {
  treatedArm: 'slot',
  from: treatedOn,
  overDays: 200,
  season: [0.6, 0.5, 0.3, 0.1, -0.2, -0.5, -0.6, -0.5, -0.3, 0.0, 0.3, 0.5],
  sharedChange: -0.4,
  effect,
};

const recorded = pairedTrial({
  seed: protocol.allocation.seed,
  walls: {
    pairs: 8,
    arms: { treated: 'slot', untreated: 'filled slot' },
    site: 'cellar',
    material: 'brick in lime mortar',
    thickness_mm: [330, 440],
    treatedOn: [treatedOn],
    level,
    spread: { pairs: 0.6, withinPair: 0.3, drift: 0.4 },
  },
  stations: {
    heights: Object.entries(heights).map(([name, height_mm]) => ({
      name,
      height_mm,
      offset: profile(height_mm, 750) - level,
    })),
    depths: [
      { depth_mm: depths[0], offset: -0.4 },
      { depth_mm: depths[1], offset: 0.4 },
    ],
    spread: 0.3,
  },
  truth,
  scatter: { visitSpread: 0.2, spotSpread: 0.4 },
  coreVisits: visits,
  microwaveVisits: [],
  climate: { places: [], from: visits[0], to: visits[0] },
  beliefsAskedOn: '2024-05-28',
});

/** Each wall of a pair stands in a cellar of its own. */
const walls = recorded.walls.map((wall, index) => ({ ...wall, site: `${wall.site}${index % 2 === 0 ? 'a' : 'b'}` }));
const wallOf = new Map(walls.map((wall) => [wall.wall, wall]));
const heightOf = new Map(recorded.stations.map(({ station, height }) => [station, height]));
const batchOf = (date) => `B${visits.indexOf(date) + 1}`;

/** In air of 75 %, plain brick takes up 0.8 %; salts below the front of the slotted walls raise that to 1.8 %. At 80 % all is more. */
const random = randomSource(protocol.allocation.seed + 1);
const saltyHeights = ['knee', 'middle'];
const uptakeAt75 = (arm, height) => (arm === 'slot' && saltyHeights.includes(height) ? 1.8 : 0.8);
const from75to80 = 1.6;

/** The air of the cellars is at 80 %: no brick stands in it drier than what it takes up there, whether or not water comes from below. */
const heldByAir = (at75) => at75 * from75to80;

const drilled = recorded.cores.map(({ reader, knew_arm, ...core }) => {
  const dryBrick = Number(core.dry_g) - Number(core.container_g);
  const grams = (moisture) => decimals(Number(core.dry_g) + (dryBrick * moisture) / 100, 2);
  const at75 = uptakeAt75(wallOf.get(core.wall).arm, heightOf.get(core.station)) * Math.exp(random.normal(0.15));
  const wet_g = decimals(Math.max(Number(core.wet_g), Number(grams(heldByAir(at75)))), 2);
  const humid_g = grams(batchOf(core.date) === 'B4' ? at75 * from75to80 : at75);
  return { ...core, wet_g, humid_g, batch: batchOf(core.date), reader, knew_arm };
});

/**
 * In the first three pairs one core went back into a sleeve, half way up, and was weighed at every visit against its first dry
 * mass. Each handling cost it 0.03 g of grains. Those of the first pair were dried again at the last visit.
 */
const sleeveHeight = 'middle';
const sleeves = walls.slice(0, 6).map((wall) => ({
  station: `${wall.wall}-sleeve`,
  wall: wall.wall,
  height: sleeveHeight,
  height_mm: heights[sleeveHeight],
  depth_mm: depths[0],
  offset: profile(heights[sleeveHeight], 750) - level + random.normal(0.3),
  dry_g: random.between(78, 86),
}));
const reweighed = sleeves.flatMap((sleeve, index) => {
  let lasting = 0;
  return visits.map((date, visit) => {
    lasting = 0.6 * lasting + random.normal(0.25);
    const wall = wallOf.get(sleeve.wall);
    const left_g = sleeve.dry_g - 0.03 * visit;
    const liquid = withinBrick(trueMoisture(wall, sleeve, date, truth) + lasting);
    const moisture = Math.max(liquid, heldByAir(uptakeAt75(wall.arm, sleeveHeight)));
    const driedAgain = index < 2 && visit === visits.length - 1;
    return {
      date,
      wall: sleeve.wall,
      station: sleeve.station,
      sample: `${sleeve.station}-core`,
      container_g: '0',
      wet_g: decimals(left_g * (1 + moisture / 100), 2),
      dry_g: decimals(driedAgain ? left_g : sleeve.dry_g, 2),
      humid_g: '',
      batch: driedAgain ? batchOf(date) : 'B1',
      reader: drilled.find((core) => core.wall === sleeve.wall).reader,
      knew_arm: 'no',
    };
  });
});

const batches = visits.map((date, visit) => ({
  batch: batchOf(date),
  oven_c: '105',
  stop_rule: 'change under 0.1 % of the mass in 24 h',
  last_change_pct: ['0.04', '0.06', '0.05', '0.07', '0.03', '0.05'][visit],
  humidity_pct: batchOf(date) === 'B4' ? '80' : '75',
  humid_temperature_c: '20',
  note: batchOf(date) === 'B4' ? 'conditioned over the wrong salt solution' : '',
}));

/** Noon readings of the air once a week in six of the cellars: steady, cool and damp. */
const air = [...new Set(walls.slice(0, 6).map(({ site }) => site))];
const weeks = Array.from({ length: 66 }, (_, week) =>
  new Date(Date.UTC(2023, 2, 1 + 7 * week)).toISOString().slice(0, 10),
);
const climate = weeks.flatMap((day) => {
  const season = -Math.cos((2 * Math.PI * (Number(day.slice(5, 7)) - 1)) / 12);
  return air.map((place) => ({
    time: `${day}T12:00`,
    place,
    temperature_c: decimals(11 + 3 * season + random.normal(0.6), 1),
    relative_humidity_pct: decimals(Math.min(99, 80 + 3 * season + random.normal(3)), 0),
  }));
});

writeTrial(import.meta.dirname, protocol, {
  'walls.csv': csv(wallsTable(walls).map((wall) => ({ ...wall, dry_density_kg_m3: '1700' }))),
  'stations.csv': csv(stationsTable([...recorded.stations, ...sleeves])),
  'cores.csv': csv([...drilled, ...reweighed]),
  'batches.csv': csv(batches),
  'climate.csv': csv(climate),
  'blinding.csv': csv(recorded.beliefs),
  'diary.csv': csv([
    { date: treatedOn, wall: '', kind: 'installed', note: 'slots cut in all walls, those of the sham filled at once' },
  ]),
});
