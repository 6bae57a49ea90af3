import { driedByVisit } from '../simulate/batches.mjs';
import { daysBetween, daysFrom, monthlyDays } from '../simulate/calendar.mjs';
import { pairedTrial } from '../simulate/paired-trial.mjs';
import { randomSource } from '../simulate/random-source.mjs';
import { csv, decimals } from '../simulate/table.mjs';
import { stationsTable, wallsTable } from '../simulate/walls.mjs';
import { writeTrial } from '../simulate/write-trial.mjs';

const protocol = {
  format: 'fairwall-trial/1',
  title: 'Eight pairs of barn walls with electrodes',
  claim: 'Anodes in the foot of the walls lower their moisture by a worthwhile amount within a year',
  outcome: { instrument: 'core', quantity: 'moisture content', unit: '% by mass', better: 'lower' },
  margin: 1.5,
  confidence: 0.95,
  arms: [
    { arm: 'powered', role: 'treated' },
    { arm: 'unpowered', role: 'sham' },
  ],
  instruments: [{ instrument: 'core', kind: 'gravimetric', resolution_g: 0.01 }],
  windows: {
    before: { from: '2022-03-01', to: '2022-05-31' },
    after: { from: '2023-03-01', to: '2023-05-31' },
  },
  treatment: { kind: 'electrodes', polarity: 'anode-in-wall' },
  allocation: { method: 'matched-pairs', seed: 20220207, by: 'a person outside the trial, by a coin for each pair' },
  selection: 'not-by-moisture',
  blinding: { readers: true, occupants: true, analyst: true },
  disclosures: {
    funding: 'the walls and the readings are invented; nobody paid for them',
    interests: 'none',
  },
  plannedOn: '2022-02-14',
};

const treatedOn = '2022-06-14';

const recorded = pairedTrial({
  seed: protocol.allocation.seed,
  walls: {
    pairs: 8,
    arms: { treated: 'powered', untreated: 'unpowered' },
    site: 'barn',
    material: 'brick in lime mortar',
    thickness_mm: [330],
    treatedOn: [treatedOn],
    level: 8,
    spread: { pairs: 0.7, withinPair: 0.4, drift: 0.4 },
  },
  stations: {
    heights: [
      { name: 'low', height_mm: 250, offset: 1 },
      { name: 'high', height_mm: 750, offset: -1 },
    ],
    depths: [{ depth_mm: 100, offset: 0 }],
    spread: 0.3,
  },
  truth: {
    season: [0.5, 0.4, 0.3, 0.1, -0.2, -0.4, -0.5, -0.4, -0.2, 0.0, 0.2, 0.4],
    treatedArm: 'powered',
    from: treatedOn,
    overDays: 200,
    sharedChange: -0.4,
    effect: { low: 0, high: 0 },
  },
  scatter: { visitSpread: 0.2, spotSpread: 0.4 },
  coreVisits: [...monthlyDays('2022-03', '2022-05', 12), ...monthlyDays('2023-03', '2023-05', 12)],
  microwaveVisits: [],
  climate: { places: [], from: treatedOn, to: treatedOn },
  beliefsAskedOn: '2023-05-24',
});
const { walls, stations } = recorded;
const { cores, batches } = driedByVisit(recorded.cores);

/** Cabinets are visited every two weeks. Lightning struck the supply, and nobody saw it for seven weeks. */
const visits = daysBetween(treatedOn, '2023-05-30', 14);
const struck = '2022-10-09';
const repaired = '2022-11-27';
const volts = 24;
const random = randomSource(protocol.allocation.seed + 1);

/** Anodes corrode: of the first current a share of 1/e is left after some 150 days of service. */
const meanWear_d = 150;
const serviceDays = (day) => daysFrom(treatedOn, day) - (day >= repaired ? daysFrom(struck, repaired) : 0);

const row = (time, wall, state, voltage_v, current_a) => {
  return { time, wall, electrode: 'anode', voltage_v, current_a, polarity: 'anode-in-wall', state };
};

function powered({ wall }) {
  const first_a = 0.042 + random.normal(0.004);
  const wear_d = meanWear_d + random.normal(20);
  const read = (day, time = '10:00') => {
    const current_a = first_a * expOf(-serviceDays(day) / wear_d) * (1 + random.normal(0.02));
    return row(`${day}T${time}`, wall, 'on', decimals(volts + random.normal(0.1), 1), decimals(current_a, 4));
  };
  const before = visits.filter((day) => day < struck).map((day) => read(day));
  const after = visits.filter((day) => day > repaired).map((day) => read(day));
  return [...before, row(`${struck}T21:30`, wall, 'off', '', ''), read(repaired, '15:00'), ...after];
}

/** The same cabinet, its supply never connected: the meter on its front shows nothing. */
function unpowered({ wall }) {
  return visits.map((day) => row(`${day}T10:00`, wall, 'off', '0.0', '0.0000'));
}

/** By the series, so that every machine gives the same digits. */
function expOf(x) {
  let [sum, term] = [1, 1];
  for (let k = 1; k < 40; k += 1) {
    term *= x / k;
    sum += term;
  }
  return sum;
}

writeTrial(import.meta.dirname, protocol, {
  'walls.csv': csv(
    wallsTable(walls).map((wall) => ({ ...wall, area_m2: '6', dry_density_kg_m3: '1700', site: 'barn' })),
  ),
  'stations.csv': csv(stationsTable(stations)),
  'cores.csv': csv(cores),
  'batches.csv': csv(batches),
  'electrical.csv': csv(walls.flatMap((wall) => (wall.arm === 'powered' ? powered(wall) : unpowered(wall)))),
  'blinding.csv': csv(recorded.beliefs),
  'diary.csv': csv([
    {
      date: treatedOn,
      wall: '',
      kind: 'installed',
      note: 'electrodes and cabinets on all walls, half of them powered',
    },
    { date: repaired, wall: '', kind: 'other', note: 'supply repaired; a thunderstorm had struck it on 9 October' },
  ]),
});
