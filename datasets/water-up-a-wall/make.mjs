import { randomSource } from '../simulate/random-source.mjs';
import { csv } from '../simulate/table.mjs';
import { writeTrial } from '../simulate/write-trial.mjs';

const protocol = {
  format: 'fairwall-trial/1',
  title: 'Water up a test wall, before anything was treated',
  claim: 'The cream keeps water from rising in the wall',
  outcome: { instrument: 'plug', quantity: 'moisture index', unit: '% of saturation', better: 'lower' },
  margin: 10,
  confidence: 0.95,
  arms: [
    { arm: 'cream', role: 'treated' },
    { arm: 'left alone', role: 'control' },
  ],
  instruments: [{ instrument: 'plug', kind: 'embedded-sensor' }],
  allocation: { method: 'chosen', by: 'the builders of the wall: there is one wall so far, and it is left alone' },
  blinding: { readers: true, occupants: true, analyst: true },
  disclosures: { funding: 'the wall and the readings are invented; nobody paid for them', interests: 'none' },
  plannedOn: '2024-09-20',
};

/** Hours of the wall clock without a zone: the hour from two to three of 27 October is there twice. */
const hour = 3_600_000;
const start = Date.UTC(2024, 8, 30);
const hours = 34 * 24;
const clockSetBack = Date.UTC(2024, 9, 27, 3);
const wetted = 3 * 24;
/** Front at speed × root of the minutes since the foot stood in water. */
const speed = 4.5;

const random = randomSource(20240920);
const sensors = Array.from({ length: 20 }, (_, at) => {
  const height_mm = 50 * (at + 1);
  return {
    sensor: `P${String(at + 1).padStart(2, '0')}`,
    height_mm,
    dry: 12 + random.normal(1.5),
    wet: 78 + random.normal(4),
    arrival: wetted + (height_mm / speed) ** 2 / 60,
  };
});

const rows = [];
for (let at = 0; at < hours; at += 1) {
  const local = start + at * hour >= clockSetBack ? start + (at - 1) * hour : start + at * hour;
  const time = new Date(local).toISOString().slice(0, 16);
  for (const [index, { sensor, dry, wet, arrival }] of sensors.entries()) {
    // The front takes some six hours to pass a plug.
    const share = Math.min(1, Math.max(0, (at - arrival) / 6));
    rows.push({ at, index, time, sensor, value: dry + (wet - dry) * share + random.normal(0.35) });
  }
}

/** What goes wrong with loggers, as the README lists it. */
const batteryOut = (at) => at >= 500 && at < 526;
const spikes = new Map([
  [200, 999],
  [333, -50],
  [610, 999],
]);
const log = rows
  .filter(({ at }) => !batteryOut(at))
  .map((row) => {
    const { at, index } = row;
    if (index === 6 && at >= 640 && at < 700) return { ...row, value: 71.4 };
    if (index === 11 && spikes.has(at)) return { ...row, value: spikes.get(at) };
    if (index === 18 && at >= 360) return { ...row, value: row.value + 9 };
    if (index === 19) return { ...row, value: row.value + at / 100 };
    return row;
  })
  .map(({ at, index, time, sensor, value }) => ({
    time,
    sensor,
    value: index === 2 && at === 90 ? 'NA' : value.toFixed(1),
  }));

const wall = { wall: 'W01', arm: 'left alone', block: '', site: 'laboratory', material: 'brick in lime mortar' };
writeTrial(import.meta.dirname, protocol, {
  'walls.csv': csv([{ ...wall, thickness_mm: 225, treated_on: '' }]),
  'stations.csv': csv(
    sensors.map(({ sensor, height_mm }) => ({
      station: `up-${height_mm}`,
      wall: 'W01',
      height_mm,
      depth_mm: 112,
      sensor,
    })),
  ),
  'sensors.csv': csv(log.toSpliced(1000, 0, log[999])),
});
