import type { Air } from '../../moisture/index.js';
import { present } from '../../plain/present.js';
import { normalDraws, type RandomStream, randomStream, uniform } from '../../statistics/index.js';
import type {
  BlockCheck,
  Core,
  DiaryEvent,
  DryingBatchRecord,
  Reading,
  SaltSample,
  Station,
  Trial,
  Wall,
} from '../../trial/index.js';
import { assumed } from './assumed-wall.js';
import { type FollowedWall, followTrial, type Seen, type Visits } from './followed-trial.js';
import { dayOfWeek, treatedWeek, weeksOfRunIn } from './simulated-days.js';
import type { SimulatedDesign } from './simulated-design.js';
import { protocolOf } from './simulated-protocol.js';
import type { SimulatedWall } from './simulated-walls.js';
import { type TruthOfTrial, truthOfTrial } from './truth-of-trial.js';

export interface SimulatedTrial {
  readonly trial: Trial;
  readonly truth: TruthOfTrial;
}

/**
 * A whole trial of simulated walls as if it had been read from a folder, with the truth beside it. The same seed and design give the
 * same trial.
 *
 * @throws RangeError for a design that cannot be simulated
 * @example simulateTrial(plainDesign, 1).truth.effect // 0
 */
export function simulateTrial(design: SimulatedDesign, seed: number): SimulatedTrial {
  const { walls: followed, visits, air, seen } = followTrial(design, seed, { withTruth: true });
  const walls = followed.map(({ wall }) => wall);
  // Of the instrument alone, so that whoever looks without one sees the same walls.
  const stream = randomStream(seed, 1);
  return {
    trial: {
      protocol: protocolOf(design, seed),
      walls: walls.map(wallRecord),
      stations: walls.flatMap((wall) => stationRecords(design, wall)),
      ...(design.instrument === 'cores'
        ? { readings: [], cores: coresOf(design, seen, stream), batches: batchesOf(visits) }
        : { readings: readingsOf(design, seen, stream), cores: [], checks: checksOf(visits) }),
      climate: climateOf(walls, air),
      ...(design.chloride_pct > 0 ? { salts: saltsOf(walls, visits) } : {}),
      ...{ beliefs: [], events: eventsOf(followed) },
      source: {
        fingerprint: (seed >>> 0).toString(16).padStart(8, '0'),
        files: [],
        ...(design.instrument === 'cores' ? { massStep_g: 0.01 } : {}),
      },
    },
    truth: truthOfTrial({ walls: followed, visits }),
  };
}

const treatedOn = dayOfWeek(treatedWeek);

/** As it stands in `walls.csv`. */
export function wallRecord({ wall, isTreated, block, site }: SimulatedWall, at: number): Wall {
  return {
    ...{ wall, arm: isTreated ? 'device' : 'sham', site },
    ...present({ block }),
    ...{ material: 'brick in lime mortar', thickness_mm: assumed.thickness_mm },
    ...{ dryDensity_kg_m3: assumed.density_kg_m3, treatedOn },
    origin: { file: 'walls.csv', row: at + 2 },
  };
}

const depth_mm = 80;

/** The name of a station at a height. */
export function stationName({ wall }: SimulatedWall, height_mm: number): string {
  return `${wall}-${height_mm}`;
}

function stationRecords({ heights_mm }: SimulatedDesign, wall: SimulatedWall): readonly Station[] {
  return heights_mm.map((height_mm, at) => ({
    ...{ station: stationName(wall, height_mm), wall: wall.wall, height_mm, depth_mm },
    origin: { file: 'stations.csv', row: at + 2 },
  }));
}

function takenOf({ heights_mm }: SimulatedDesign, { wall, week, station, reader, knewArm }: Seen) {
  const name = stationName(wall, heights_mm[station] ?? 0);
  return { date: dayOfWeek(week), wall: wall.wall, station: name, reader, knewArm };
}

/** Standard deviation of one weighing in grams; the display steps by 0.01 g. */
const balance_g = 0.006;

function coresOf(design: SimulatedDesign, seen: readonly Seen[], stream: RandomStream): readonly Core[] {
  return seen.map((one, at) => {
    const [a, b, c] = normalDraws(stream, 3) as unknown as readonly [number, number, number];
    const [container, dry] = [24 + 8 * uniform(stream), 38 + 26 * uniform(stream)];
    const weigh = (mass: number, error: number) => Math.round(100 * (mass + balance_g * error)) / 100;
    return {
      ...takenOf(design, one),
      ...{ batch: batchOf(one.visit), container_g: weigh(container, a) },
      ...{ wet_g: weigh(container + dry * (1 + one.moisture / 100), b), dry_g: weigh(container + dry, c) },
      origin: { file: 'cores.csv', row: at + 2 },
    };
  });
}

/** An index that rises by 5 for each percent by mass, and scatters by 2. */
function readingsOf(design: SimulatedDesign, seen: readonly Seen[], stream: RandomStream): readonly Reading[] {
  const errors = normalDraws(stream, seen.length);
  return seen.map((one, at) => ({
    ...takenOf(design, one),
    ...{ instrument: 'meter', value: measured(Math.round(10 * (5 * one.moisture + 2 * (errors[at] as number))) / 10) },
    origin: { file: 'readings.csv', row: at + 2 },
  }));
}

function measured(value: number) {
  return { kind: 'measured', value } as const;
}

const batchOf = (visit: number) => `oven ${visit + 1}`;

/** An oven full for each visit: both arms dry together. */
function batchesOf({ before, after }: Visits): readonly DryingBatchRecord[] {
  return [...before, ...after].map((_, visit) => ({
    ...{ batch: batchOf(visit), oven_c: 105, stopRule: 'until weighings a day apart agree to 0.1 %' },
    lastChange_pct: 0.04,
    origin: { file: 'batches.csv', row: visit + 2 },
  }));
}

/** A block that does not change, before each visit. */
function checksOf({ before, after }: Visits): readonly BlockCheck[] {
  const steps = [0, 0.2, -0.1, 0.1, -0.2];
  return [...before, ...after].map((week, visit) => ({
    ...{ date: dayOfWeek(week), instrument: 'meter', block: 'dry block', reader: visit % 2 === 0 ? 'R1' : 'R2' },
    value: measured(40 + (steps[visit % steps.length] ?? 0)),
    origin: { file: 'checks.csv', row: visit + 2 },
  }));
}

/** From a week before the first window on, beside every site. */
function climateOf(walls: readonly SimulatedWall[], air: readonly Air[]): Trial['climate'] {
  const places = [...new Set(walls.map(({ site }) => site))];
  return places.flatMap((place, number) =>
    air.slice(weeksOfRunIn).map(({ temperature_c, relativeHumidity_pct }, week, all) => ({
      ...{ time: `${dayOfWeek(weeksOfRunIn + week)}T12:00`, place },
      ...{ temperature_c: Math.round(10 * temperature_c) / 10 },
      relative_humidity_pct: Math.round(relativeHumidity_pct),
      origin: { file: 'climate.csv', row: number * all.length + week + 2 },
    })),
  );
}

/** Of each wall at its foot, on the first and the last visit: the salts stay what they are. */
function saltsOf(walls: readonly SimulatedWall[], { before, after }: Visits): readonly SaltSample[] {
  const days = [before[0], after.at(-1)].map((week) => dayOfWeek(week ?? 0));
  const none = { kind: 'missing' } as const;
  return days.flatMap((date, visit) =>
    walls.map(({ wall, chloride_pct }, at) => ({
      ...{ date, wall, height_mm: 300, depth_mm: 20 },
      contents_pct: { chloride: measured(Math.round(1000 * chloride_pct) / 1000), nitrate: none, sulfate: none },
      origin: { file: 'salts.csv', row: visit * walls.length + at + 2 },
    })),
  );
}

function eventsOf(followed: readonly FollowedWall[]): readonly DiaryEvent[] {
  const note = 'devices and shams fixed to all walls';
  const installed = { date: dayOfWeek(treatedWeek), kind: 'installed' as const, note };
  const leaks = followed.flatMap(({ wall: { wall }, leak }) =>
    leak === undefined
      ? []
      : [{ date: dayOfWeek(leak.from), wall, kind: 'leak' as const, note: 'a pipe leaked, for two months' }],
  );
  return [installed, ...leaks].map((event, at) => ({ ...event, origin: { file: 'diary.csv', row: at + 2 } }));
}
