import { daysBetween } from '../simulate/calendar.mjs';
import { randomSource } from '../simulate/random-source.mjs';
import { csv, decimals } from '../simulate/table.mjs';
import { writeTrial } from '../simulate/write-trial.mjs';

const treatedOn = '2025-03-24';
const protocol = {
  format: 'fairwall-trial/1',
  title: 'Sixteen brick piers in trays, refilled by weight',
  claim:
    'The injection lowers the water that a brick pier takes up from its foot by a worthwhile amount within half a year',
  outcome: { instrument: 'tray', quantity: 'water uptake', unit: 'ml/day', better: 'lower' },
  margin: 15,
  marginSource: 'agreed between workshop and client before the start: some 20 % of the usual uptake',
  confidence: 0.95,
  arms: [
    { arm: 'injected', role: 'treated' },
    { arm: 'drilled only', role: 'sham' },
  ],
  instruments: [
    { instrument: 'tray', kind: 'direct', fromTrays: 'refill' },
    { instrument: 'scale', kind: 'direct', fromTrays: 'mass' },
  ],
  windows: {
    before: { from: '2025-02-03', to: '2025-03-23' },
    after: { from: '2025-08-04', to: '2025-09-21' },
  },
  allocation: { method: 'randomised', seed: 20250127, by: 'a person outside the workshop, by drawing cards' },
  selection: 'not-by-moisture',
  blinding: { readers: true, occupants: true, analyst: true },
  disclosures: { funding: 'the piers and the readings are invented; nobody paid for them', interests: 'none' },
  plannedOn: '2025-01-27',
};

const random = randomSource(protocol.allocation.seed);
/** Eight of sixteen, by drawing: the first eight cards of a shuffled pack. */
function drawn(count, of) {
  const pack = Array.from({ length: of }, (_, k) => k);
  const chosen = new Set();
  while (chosen.size < count) chosen.add(random.pick(pack));
  return chosen;
}
const injected = drawn(8, 16);
const piers = Array.from({ length: 16 }, (_, k) => ({
  wall: `P${String(k + 1).padStart(2, '0')}`,
  arm: injected.has(k) ? 'injected' : 'drilled only',
  /** ml a day at rest, and kg with the water in it. */
  uptake: 74 + random.normal(6),
  mass: 61 + random.normal(1.2),
  reader: k % 2 === 0 ? 'R1' : 'R2',
}));

const visits = daysBetween('2025-01-20', '2025-09-15', 7);
const emptied = '2025-09-22';
/** Days on which the piers were weighed while they dried. */
const weighed = daysBetween(emptied, '2025-11-17', 4);
const dayOf = (day) => Date.parse(`${day}T00:00:00Z`) / 86_400_000;

/** The workshop is a little warmer in summer: every pier gives off, and takes up, 8 ml a day more. The injection takes effect over 60 days. */
const roomOf = (day) => 8 * Math.sin(Math.PI * Math.max(0, Math.min(1, (dayOf(day) - dayOf('2025-04-01')) / 230)));
const arrivedBy = (day) => Math.max(0, Math.min(1, (dayOf(day) - dayOf(treatedOn)) / 60));
const effect = -34;
const uptakeOf = (pier, day) => pier.uptake + roomOf(day) + (pier.arm === 'injected' ? effect * arrivedBy(day) : 0);
const massOf = (pier, day) => pier.mass - (pier.arm === 'injected' ? 1.6 * arrivedBy(day) : 0);

const standing = visits.flatMap((date) =>
  piers.map((pier) => ({
    date,
    wall: pier.wall,
    refill_ml: decimals(7 * (uptakeOf(pier, date) + random.normal(3)), 0),
    mass_kg: decimals(massOf(pier, date) + random.normal(0.03), 2),
    level_mm: '30',
    water: 'tap',
    reader: pier.reader,
    knew_arm: 'no',
  })),
);
/** 60 g a day for sixteen days; from there by the root of time, no faster at the break than before. */
const lost = (days) => (days <= 16 ? 0.06 * days : 0.06 * 16 + 0.4 * (Math.sqrt(days) - 4));
const drying = weighed.flatMap((date) =>
  piers.slice(0, 4).map((pier) => ({
    date,
    wall: pier.wall,
    refill_ml: '',
    mass_kg: decimals(massOf(pier, emptied) - lost(dayOf(date) - dayOf(emptied)) + random.normal(0.01), 2),
    level_mm: '0',
    water: '',
    reader: pier.reader,
    knew_arm: 'no',
  })),
);
/** A sealed can of water on the same scale at every visit: what it shows of 5000 g is what the scale does. */
const checks = visits.map((date) => ({
  date,
  instrument: 'tray',
  block: 'sealed can, as ml a day',
  value: decimals(70 + random.normal(0.4), 1),
  reader: 'R1',
}));
const climate = daysBetween('2025-01-20', '2025-11-17', 1).map((day) => ({
  time: `${day}T12:00`,
  place: 'workshop',
  temperature_c: decimals(18 + roomOf(day) / 4 + random.normal(0.4), 1),
  relative_humidity_pct: decimals(55 + random.normal(3), 0),
}));

writeTrial(import.meta.dirname, protocol, {
  'walls.csv': csv(
    piers.map(({ wall, arm }) => ({
      ...{ wall, arm, site: 'workshop', material: 'solid brick in lime mortar', thickness_mm: '230', area_m2: '0.157' },
      ...{ dry_density_kg_m3: '1700', treated_on: treatedOn },
    })),
  ),
  'trays.csv': csv([...standing, ...drying]),
  'checks.csv': csv(checks),
  'climate.csv': csv(climate),
  'diary.csv': csv([
    { date: treatedOn, wall: '', kind: 'installed', note: 'holes drilled in all piers, filled in eight of them' },
    { date: emptied, wall: '', kind: 'other', note: 'trays emptied, the first four piers left to dry' },
  ]),
});
