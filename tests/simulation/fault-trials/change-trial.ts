import type { Core, Protocol, Reading, Station, Trial, Wall } from '../../../src/trial/index.js';
import { DRIEST, moistened, moistureOf } from './weighing.js';

/** Where and when a core was drilled or a reading taken, for faults that strike some of them. */
export interface Taken {
  readonly day: string;
  readonly wall: Wall;
  /** Place of the wall in the trial, from 0. */
  readonly at: number;
  readonly isTreated: boolean;
  readonly isAfter: boolean;
  readonly station: Station;
  readonly reader?: string;
  /** What it shows, in percent by mass. */
  readonly moisture: number;
}

type Where = (taken: Taken) => boolean;

export function withProtocol(trial: Trial, changed: Partial<Protocol>): Trial {
  return { ...trial, protocol: { ...trial.protocol, ...changed } };
}

export function withWalls(trial: Trial, changed: (wall: Wall, at: number) => Wall): Trial {
  return { ...trial, walls: trial.walls.map(changed) };
}

export function isTreated({ protocol: { arms, compare } }: Trial, { arm }: Wall): boolean {
  return compare?.treated.includes(arm) ?? arms.some((one) => one.arm === arm && one.role === 'treated');
}

/** As though each core and reading had found so many points more: what the balance and the meter showed follows. */
export function moved(trial: Trial, points: (taken: Taken) => number): Trial {
  const look = takenIn(trial);
  const unit = scaleOf(trial);
  return {
    ...trial,
    cores: trial.cores.map((core) => {
      const shift = points(look(core, moistureOf(core)));
      return shift === 0 ? core : moistened(core, shift);
    }),
    readings: trial.readings.map((reading) => {
      const { value, instrument } = reading;
      if (value.kind !== 'measured' || instrument !== trial.protocol.outcome.instrument) return reading;
      const shift = points(look(reading, value.value / unit));
      if (shift === 0) return reading;
      const shown = Math.round(100 * unit * Math.max(DRIEST, value.value / unit + shift)) / 100;
      return { ...reading, value: { kind: 'measured', value: shown } };
    }),
  };
}

/** Without the cores and readings that are meant. */
export function without(trial: Trial, where: Where): Trial {
  const look = takenIn(trial);
  return {
    ...trial,
    cores: trial.cores.filter((core) => !where(look(core, moistureOf(core)))),
    readings: trial.readings.filter((reading) => !where(look(reading, shownBy(reading, scaleOf(trial))))),
  };
}

/** Cores and readings noted otherwise: on another day, by somebody else, at another place. */
export function noted(
  trial: Trial,
  changed: (taken: Taken) => Partial<Pick<Core & Reading, 'date' | 'station' | 'reader' | 'knewArm'>>,
): Trial {
  const look = takenIn(trial);
  return {
    ...trial,
    cores: trial.cores.map((core) => ({ ...core, ...changed(look(core, moistureOf(core))) })),
    readings: trial.readings.map((reading) => ({
      ...reading,
      ...changed(look(reading, shownBy(reading, scaleOf(trial)))),
    })),
  };
}

/** The trial of some of its walls: nothing is left of the others. */
export function keepWalls(trial: Trial, keeps: (wall: Wall, at: number) => boolean): Trial {
  const kept = trial.walls.filter(keeps);
  const names = new Set(kept.map(({ wall }) => wall));
  const ofKept = ({ wall }: { readonly wall: string }) => names.has(wall);
  const sites = new Set(kept.map(({ site }) => site));
  return {
    ...trial,
    walls: kept,
    stations: trial.stations.filter(ofKept),
    cores: trial.cores.filter(ofKept),
    readings: trial.readings.filter(ofKept),
    beliefs: trial.beliefs.filter(ofKept),
    climate: trial.climate.filter(({ place }) => sites.has(place)),
  };
}

/** Walls at other sites: the air is that of the first wall that each site now has. */
export function atSites(trial: Trial, siteOf: (wall: Wall, at: number) => string): Trial {
  const first = new Map<string, string>();
  for (const [at, wall] of trial.walls.entries()) {
    const site = siteOf(wall, at);
    if (!first.has(site)) first.set(site, wall.site ?? '');
  }
  const newName = new Map([...first].map(([site, old]) => [old, site]));
  return {
    ...withWalls(trial, (wall, at) => ({ ...wall, site: siteOf(wall, at) })),
    climate: trial.climate.flatMap((row) => {
      const place = newName.get(row.place);
      return place === undefined ? [] : [{ ...row, place }];
    }),
  };
}

/** Mean moisture found in a wall in a window. */
export function meansOfWalls(trial: Trial, window: 'before' | 'after'): ReadonlyMap<string, number> {
  const sums = new Map<string, { sum: number; count: number }>();
  const look = takenIn(trial);
  const add = ({ wall, isAfter, moisture }: Taken) => {
    if (isAfter !== (window === 'after')) return;
    const { sum, count } = sums.get(wall.wall) ?? { sum: 0, count: 0 };
    sums.set(wall.wall, { sum: sum + moisture, count: count + 1 });
  };
  for (const core of trial.cores) add(look(core, moistureOf(core)));
  for (const reading of trial.readings) add(look(reading, shownBy(reading, scaleOf(trial))));
  return new Map([...sums].map(([wall, { sum, count }]) => [wall, sum / count]));
}

/** Mean moisture found at each station in the after window. */
export function meansOfStationsAfter(trial: Trial): ReadonlyMap<string, number> {
  const sums = new Map<string, { sum: number; count: number }>();
  for (const core of trial.cores) {
    if (core.date < afterFrom(trial)) continue;
    const { sum, count } = sums.get(core.station) ?? { sum: 0, count: 0 };
    sums.set(core.station, { sum: sum + moistureOf(core), count: count + 1 });
  }
  return new Map([...sums].map(([station, { sum, count }]) => [station, sum / count]));
}

/** The protocol states windows until a fault takes them away, and such a fault asks nothing more. */
function afterFrom(trial: Trial): string {
  return trial.protocol.windows?.after.from ?? '';
}

function scaleOf({ protocol }: Trial): number {
  return protocol.outcome.unit === 'mV' ? 10 : 1;
}

function shownBy({ value }: Reading, unit: number): number {
  return value.kind === 'measured' ? value.value / unit : Number.NaN;
}

function takenIn(trial: Trial) {
  const walls = new Map(
    trial.walls.map((wall, at) => [wall.wall, { wall, at, isTreated: isTreated(trial, wall) }] as const),
  );
  const stations = new Map(trial.stations.map((station) => [station.station, station]));
  const after = afterFrom(trial);
  return (row: Pick<Core, 'date' | 'wall' | 'station' | 'reader'>, moisture: number): Taken => {
    const own = walls.get(row.wall);
    const station = stations.get(row.station);
    if (own === undefined || station === undefined) throw new Error(`${row.wall}, ${row.station} is not in the trial`);
    const reader = row.reader === undefined ? {} : { reader: row.reader };
    return { ...own, station, day: row.date, isAfter: row.date >= after, moisture, ...reader };
  };
}
