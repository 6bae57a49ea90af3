import { driedByVisit } from '../simulate/batches.mjs';
import { blemish } from '../simulate/blemish.mjs';
import { daysBetween, daysFrom } from '../simulate/calendar.mjs';
import { readClimate } from '../simulate/climate.mjs';
import { drillCores } from '../simulate/cores.mjs';
import { randomSource } from '../simulate/random-source.mjs';
import { csv } from '../simulate/table.mjs';
import { stationsOf, stationsTable, wallsTable } from '../simulate/walls.mjs';
import { writeTrial } from '../simulate/write-trial.mjs';

const protocol = {
  format: 'fairwall-trial/1',
  title: 'Two gables of a barn through two winters',
  claim: 'The device lowers the moisture of the wall by a worthwhile amount by the next winter',
  outcome: { instrument: 'core', quantity: 'moisture content', unit: '% by mass', better: 'lower' },
  margin: 0.5,
  confidence: 0.95,
  arms: [
    { arm: 'device', role: 'treated' },
    { arm: 'dummy', role: 'sham' },
  ],
  instruments: [{ instrument: 'core', kind: 'gravimetric', resolution_g: 0.01 }],
  windows: {
    before: { from: '2023-11-15', to: '2024-02-29' },
    after: { from: '2024-11-15', to: '2025-02-28' },
  },
  allocation: { method: 'chosen', by: 'the owner of the barn, who wanted the device on the windward gable' },
  blinding: { readers: true, occupants: true, analyst: true },
  disclosures: { funding: 'the walls and the readings are invented; nobody paid for them', interests: 'none' },
  plannedOn: '2023-10-02',
};

const treatedOn = '2024-05-21';
const common = { block: '', site: 'barn', material: 'brick in lime mortar', thickness_mm: 340, drift: 0, treatedOn };
const walls = [
  { ...common, wall: 'W01', arm: 'device', level: 8.6 },
  { ...common, wall: 'W02', arm: 'dummy', level: 9.1 },
];
/** What 100 Pa more of vapour pressure difference in the thirty days before take off, in per cent by mass. */
const takenByAir = { W01: 1.3, W02: 0.2 };
/** In the second winter the air is drier, in per cent relative humidity. */
const drier = 12;
const usual_pa = 100;

const random = randomSource(20231003);
const climate = readClimate(random, { places: ['barnyard'], from: '2023-10-16', to: '2025-02-28' }).map((row) => ({
  ...row,
  relative_humidity_pct: `${Number(row.relative_humidity_pct) - (row.time > '2024-10' ? drier : 0)}`,
}));
const stations = stationsOf(random, walls, {
  heights: [
    { name: 'low', height_mm: 250, offset: 1 },
    { name: 'middle', height_mm: 750, offset: 0 },
    { name: 'high', height_mm: 1250, offset: -1 },
  ],
  depths: [{ depth_mm: 100, offset: 0 }],
  spread: 0.4,
});
const visits = [...daysBetween('2023-11-20', '2024-02-26', 7), ...daysBetween('2024-11-18', '2025-02-24', 7)];
const recorded = drillCores(random, {
  walls,
  stations,
  visits,
  truth: {
    season: Array(12).fill(0),
    course: ({ wall }, day) => (-takenByAir[wall] * (pressureBefore(day) - usual_pa)) / 100,
  },
  visitSpread: 0.15,
  spotSpread: 0.3,
  readerOf: () => 'R1',
  knewArm: 'no',
});
const diary = [{ date: treatedOn, wall: '', kind: 'installed', note: 'device on W01, dummy of the same make on W02' }];

const dried = driedByVisit(blemish(recorded, { station: 'W02-low-100', date: visits[6] }, { wet_g: 'NA' }));

writeTrial(import.meta.dirname, protocol, {
  'walls.csv': csv(wallsTable(walls)),
  'stations.csv': csv(stationsTable(stations)),
  'cores.csv': csv(dried.cores),
  'batches.csv': csv(dried.batches),
  'climate.csv': csv(climate),
  'diary.csv': csv(diary),
});

/** Mean over the thirty days before of how much more vapour pressure a wet wall as warm as the air has than the air. */
function pressureBefore(day) {
  const values = climate
    .filter(({ time }) => daysFrom(time.slice(0, 10), day) >= 0 && daysFrom(time.slice(0, 10), day) < 30)
    .map(({ temperature_c, relative_humidity_pct }) => {
      const saturated_pa = 611.2 * Math.exp((17.62 * temperature_c) / (243.12 + Number(temperature_c)));
      return saturated_pa * (1 - relative_humidity_pct / 100);
    });
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
