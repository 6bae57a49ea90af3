import type {
  Belief,
  BlockCheck,
  Core,
  DiaryEvent,
  DryingBatchRecord,
  Reading,
  SensorLog,
  Station,
  Trial,
} from '../../../src/trial/index.js';
import { airOf } from './air-of.js';
import { type Base, loggedWindows, plainBase, SPREAD, treatmentDays, windows } from './base.js';
import { everyDays } from './calendar.js';
import { type Draws, drawsFrom, rounded } from './own-random.js';
import { protocolOf, scaleOf } from './protocol-of.js';
import { type TrueWall, wallsOf } from './walls-of.js';
import { DRIEST, weighed, weighedHumid } from './weighing.js';

const heights = [
  { name: 'low', height_mm: 300, wetter: 1.5 },
  { name: 'middle', height_mm: 700, wetter: 0 },
  { name: 'high', height_mm: 1200, wetter: -1.5 },
] as const;
const outOfReach = { name: 'top', height_mm: 1800, wetter: -3 } as const;
const depths = [60, 165] as const;

const visitsInMonths: Readonly<Record<Base['visits'], readonly string[]>> = {
  3: ['03-05', '04-02', '05-07'],
  6: ['03-05', '03-19', '04-02', '04-16', '05-07', '05-21'],
};

interface TruePlace {
  readonly record: Station;
  readonly wallNumber: number;
  readonly before: number;
  readonly after: number;
}

interface Visit {
  readonly day: string;
  readonly isAfter: boolean;
  readonly season: number;
}

/**
 * A trial of which nothing is wrong and nothing is left unsaid. The same seed and base give the same trial.
 *
 * @example soundTrial(1).cores.length // 576
 */
export function soundTrial(seed: number, changed: Partial<Base> = {}): Trial {
  const base = { ...plainBase, ...changed };
  const draws = drawsFrom(seed);
  const walls = wallsOf(base, draws);
  const places = walls.flatMap((wall) => placesOf(base, wall, draws));
  const visits = visitsOf(base, draws);
  const sites = [...new Set(walls.flatMap(({ record }) => record.site ?? []))];
  const isWeighed = base.outcome === 'cores';
  const readings = [
    ...(base.outcome === 'cores' ? [] : readingsOf(base, { places, visits, draws })),
    ...(base.beside === 'hand-held-meter' ? besideReadings(places, visits, draws) : []),
  ];
  return {
    protocol: protocolOf(base, seed),
    walls: walls.map(({ record }) => record),
    stations: places.map(({ record }) => record),
    readings,
    cores: isWeighed ? coresOf(base, places, visits, draws) : [],
    ...(isWeighed ? { batches: batchesOf(base, visits) } : {}),
    climate: airOf(sites, '2024-02-26', '2025-06-02', draws),
    beliefs: beliefsOf(walls, visits, draws),
    events: eventsOf(),
    ...(isWeighed && base.beside !== 'hand-held-meter' ? {} : { checks: checksOf(base, visits, draws) }),
    ...(base.outcome === 'embedded-sensors' ? { sensorLog: logOf(places, readings) } : {}),
    source: {
      fingerprint: (seed >>> 0).toString(16).padStart(8, '0'),
      files: [],
      ...(isWeighed ? { massStep_g: 0.01 } : {}),
    },
  };
}

function placesOf(base: Base, { record: { wall, arm }, level, change }: TrueWall, draws: Draws): readonly TruePlace[] {
  const at = base.beside === 'station-out-of-reach' ? [...heights, outOfReach] : heights;
  const wallNumber = Number(wall.slice(1));
  const deep = base.outcome === 'cores' ? depths : [depths[1]];
  return at.flatMap(({ name, height_mm, wetter }) =>
    deep.map((depth_mm) => {
      const before = level + wetter + (depth_mm > 100 ? 0.4 : 0) + SPREAD.station * draws.normal();
      const acted = height_mm > 1500 && arm === 'device' ? -base.effect : 0;
      const station = `${wall}-${name}-${depth_mm}`;
      const sensor = base.outcome === 'embedded-sensors' ? { sensor: `S-${station}` } : {};
      const origin = { file: 'stations.csv', row: 2 };
      const after = before + change + acted + SPREAD.stationChange * draws.normal();
      return { record: { station, wall, height_mm, depth_mm, ...sensor, origin }, wallNumber, before, after };
    }),
  );
}

/** The same days of the year in both windows; a logger reads on every day of a month. */
function visitsOf({ outcome, visits }: Base, draws: Draws): readonly Visit[] {
  const daysOf = (year: number) =>
    outcome === 'embedded-sensors'
      ? everyDays(`${year}${loggedWindows.before.from.slice(4)}`, `${year}${loggedWindows.before.to.slice(4)}`, 1)
      : visitsInMonths[visits].map((day) => `${year}-${day}`);
  return [2024, 2025].flatMap((year) =>
    daysOf(year).map((day) => ({ day, isAfter: year === 2025, season: SPREAD.season * draws.normal() })),
  );
}

const truth = ({ before, after }: TruePlace, { isAfter, season }: Visit) =>
  Math.max(DRIEST, (isAfter ? after : before) + season);

/** Walls change readers from visit to visit, and nobody knows which arm a wall is in. */
function readerOf({ wallNumber }: TruePlace, visit: number): string {
  return (wallNumber + visit) % 2 === 0 ? 'R1' : 'R2';
}

// In the three loops that make most of a trial's rows each row is written out whole: spreading parts into it costs as much again.

function coresOf(base: Base, places: readonly TruePlace[], visits: readonly Visit[], draws: Draws): readonly Core[] {
  const cores: Core[] = [];
  const isHumid = base.beside === 'humid-masses';
  for (const [number, visit] of visits.entries()) {
    const batch = batchOf(number);
    for (const place of places) {
      const { wall, station } = place.record;
      const masses = weighed(truth(place, visit) + SPREAD.reading * draws.normal(), draws);
      const { container_g, wet_g, dry_g } = masses;
      const reader = readerOf(place, number);
      const origin = { file: 'cores.csv', row: cores.length + 2 };
      const core: Core = {
        date: visit.day,
        wall,
        station,
        container_g,
        wet_g,
        dry_g,
        batch,
        reader,
        knewArm: 'no',
        origin,
      };
      cores.push(isHumid ? { ...core, humid_g: weighedHumid(masses, 1.5 + 0.2 * draws.normal(), draws) } : core);
    }
  }
  return cores;
}

function readingsOf(
  base: Base,
  { places, visits, draws }: { places: readonly TruePlace[]; visits: readonly Visit[]; draws: Draws },
): readonly Reading[] {
  const { instrument } = protocolOf(base, 0).outcome;
  const scale = scaleOf(base);
  const isLogged = base.outcome === 'embedded-sensors';
  const isPotential = base.outcome === 'potential';
  const file = isLogged ? 'sensors.csv' : 'readings.csv';
  // With a second reader both read every station, unseen by each other.
  const rounds = base.beside === 'second-reader' ? [0, 1] : [0];
  const readings: Reading[] = [];
  for (const [number, visit] of visits.entries()) {
    for (const place of places) {
      const { wall, station } = place.record;
      for (const round of rounds) {
        const shown = rounded(scale * (truth(place, visit) + SPREAD.reading * draws.normal()), 2);
        const value = { kind: 'measured', value: shown } as const;
        const origin = { file, row: readings.length + 2 };
        // A logger is read by nobody.
        if (isLogged) readings.push({ date: visit.day, wall, station, instrument, value, origin });
        else {
          const reader = readerOf(place, number + round);
          const reading: Reading = { date: visit.day, wall, station, instrument, value, reader, knewArm: 'no', origin };
          readings.push(isPotential ? { ...reading, lead: 'as-stated' } : reading);
        }
      }
    }
  }
  return readings;
}

/** A hand-held meter at the places of the cores, which shows an index of its own. */
function besideReadings(places: readonly TruePlace[], visits: readonly Visit[], draws: Draws): readonly Reading[] {
  const readings: Reading[] = [];
  for (const [number, visit] of visits.entries()) {
    for (const place of places) {
      const { wall, station } = place.record;
      const value = rounded(20 + 3 * truth(place, visit) + 1.5 * draws.normal(), 1);
      readings.push({
        ...{ date: visit.day, wall, station, instrument: 'meter', value: { kind: 'measured', value } },
        ...{ reader: readerOf(place, number), knewArm: 'no' },
        origin: { file: 'readings.csv', row: readings.length + 2 },
      });
    }
  }
  return readings;
}

const batchOf = (visit: number) => `oven ${visit + 1}`;

/** An oven full for each visit: both arms dry together. */
function batchesOf({ beside }: Base, visits: readonly Visit[]): readonly DryingBatchRecord[] {
  return visits.map((_, number) => ({
    batch: batchOf(number),
    oven_c: 105,
    stopRule: 'until three weighings a day apart agree to 0.1 %',
    lastChange_pct: 0.04,
    ...(beside === 'humid-masses' ? { humidity_pct: 70, humidTemperature_c: 20 } : {}),
    origin: { file: 'batches.csv', row: number + 2 },
  }));
}

/** A block that does not change, before each visit. */
function checksOf(base: Base, visits: readonly Visit[], draws: Draws): readonly BlockCheck[] {
  const instrument = base.beside === 'hand-held-meter' ? 'meter' : protocolOf(base, 0).outcome.instrument;
  return visits.map(({ day }, number) => ({
    date: day,
    instrument,
    block: 'dry block',
    value: { kind: 'measured', value: rounded(8 * scaleOf(base) + 0.05 * draws.normal(), 2) },
    reader: number % 2 === 0 ? 'R1' : 'R2',
    origin: { file: 'checks.csv', row: number + 2 },
  }));
}

/** On the last day of readings each reader says of every wall what arm it is in: by guessing, one in five not at all. */
function beliefsOf(walls: readonly TrueWall[], visits: readonly Visit[], draws: Draws): readonly Belief[] {
  const day = visits.at(-1)?.day ?? windows.after.to;
  const people = ['R1', 'R2'];
  return walls.flatMap(({ record: { wall } }, at) =>
    people.map((person, which) => {
      const guess = draws.uniform();
      const believedArm = guess < 0.2 ? 'unknown' : guess < 0.6 ? 'device' : 'sham';
      const origin = { file: 'blinding.csv', row: people.length * at + which + 2 };
      return { date: day, person, role: 'reader', wall, believedArm, why: 'a guess', readingDate: day, origin };
    }),
  );
}

function eventsOf(): readonly DiaryEvent[] {
  const origin = (row: number) => ({ file: 'diary.csv', row });
  return [
    { date: treatmentDays[1], kind: 'installed', note: 'devices and shams fixed to all walls', origin: origin(2) },
    { date: '2024-11-20', kind: 'other', note: 'first frost', origin: origin(3) },
  ];
}

/** A log without gaps, jumps or drift. */
function logOf(places: readonly TruePlace[], readings: readonly Reading[]): SensorLog {
  const daysOf = new Map<string, SensorLog['sensors'][number]['days'][number][]>();
  for (const { station, date, value, origin } of readings) {
    const mean = value.kind === 'measured' ? value.value : Number.NaN;
    const days = daysOf.get(station) ?? [];
    days.push({ day: date, mean, readings: 24, coverage: 1, row: origin.row });
    daysOf.set(station, days);
  }
  const none = { count: 0 };
  const sensors = places.map(({ record: { station, sensor = station } }) => ({
    ...{ sensor, readings: 24 * (daysOf.get(station)?.length ?? 0), interval_s: 3600, days: daysOf.get(station) ?? [] },
    gaps: { count: 0, missing: 0, longest_s: 0 },
    stuck: { count: 0, readings: 0, longest_s: 0 },
    ...{ spikes: none, steps: none, clockChanges: [] },
    drift: { perDay: 0.0002, standardError: 0.003, drifts: false },
  }));
  const leftOut = { missing: 0, belowDetection: 0, repeated: 0, contradicting: 0 };
  const rows = 24 * readings.length;
  return { file: 'sensors.csv', rows, leftOut, clock: 'without-zone', order: 'in-order', sensors };
}
