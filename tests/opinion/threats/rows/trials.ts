import type {
  BlockCheck,
  Core,
  DiaryEvent,
  DryingBatchRecord,
  EventKind,
  Protocol,
  Reading,
  Station,
  Trial,
  Wall,
} from '../../../../src/index.js';
import { welch } from '../../../../src/statistics/index.js';
import { type MadeWall, madeTrial, soundProtocol, wallsWithChanges } from '../../../helpers/made-trial.js';

export const treatedChanges = [-4.1, -3.6, -4.4, -3.9, -4.2, -3.7];
export const untreatedChanges = [-0.2, 0.3, -0.4, 0.1, -0.1, 0.2];
export const walls = wallsWithChanges(treatedChanges, untreatedChanges);

/** Six walls and six. */
export const sound = madeTrial(walls);

/** So many walls in each arm. */
export function wallsInArms(treated: number, untreated = treated, untreatedArm = 'sham'): MadeWall[] {
  const wobble = (at: number) => 0.3 * Math.sin(2.4 * at);
  return wallsWithChanges(
    Array.from({ length: treated }, (_, at) => -4 + wobble(at)),
    Array.from({ length: untreated }, (_, at) => wobble(at + 40)),
    untreatedArm,
  );
}

export const ten = madeTrial(wallsInArms(10));

export const isTreated = (wall: string) => wall.startsWith('T');
export const numberOf = (wall: string) => Number(wall.slice(1));
export const isAfter = ({ date }: { readonly date: string }) => date > '2025';
export const measured = (value: number) => ({ kind: 'measured' as const, value });
export const amountOf = ({ value }: Reading) => (value.kind === 'measured' ? value.value : Number.NaN);

export function planned(changes: Partial<Protocol>, trial: Trial = sound): Trial {
  return { ...trial, protocol: { ...trial.protocol, ...changes } };
}

export function unplanned(...keys: readonly (keyof Protocol)[]): Trial {
  const kept = Object.entries(soundProtocol).filter(([key]) => !keys.includes(key as keyof Protocol));
  return { ...sound, protocol: Object.fromEntries(kept) as unknown as Protocol };
}

export function reading(change: (reading: Reading, index: number) => Reading, trial: Trial = sound): Trial {
  return { ...trial, readings: trial.readings.map(change) };
}

/** Changes the first so many after readings. */
export function firstAfter(count: number, change: (reading: Reading) => Reading, trial: Trial = ten): Trial {
  const chosen = new Set(trial.readings.filter(isAfter).slice(0, count));
  return reading((one) => (chosen.has(one) ? change(one) : one), trial);
}

export function walling(change: (wall: Wall, index: number) => Wall, trial: Trial = sound): Trial {
  return { ...trial, walls: trial.walls.map(change) };
}

export const atRandom = { method: 'randomised', by: 'a person outside the trial' } as const;
export const byOwner = { method: 'chosen', by: 'the owner' } as const;
export const chosen = (trial: Trial = sound) => planned({ allocation: byOwner }, trial);

/** The same trial of a quantity that is better the higher it is. */
export function higher(trial: Trial): Trial {
  const turned = reading((one) => ({ ...one, value: measured(20 - amountOf(one)) }), trial);
  return planned({ outcome: { ...trial.protocol.outcome, better: 'higher' } }, turned);
}

/** Walls without one of their readings. */
export function lost(list: readonly MadeWall[], names: readonly string[], window: 'before' | 'after' = 'after') {
  return list.map((wall) => {
    if (!names.includes(wall.wall)) return wall;
    const { [window]: _, ...rest } = wall;
    return rest;
  });
}

export function withEvents(
  events: readonly (readonly [date: string, kind: EventKind, wall?: string])[],
  trial: Trial = sound,
): Trial {
  const diary = events.map(([date, kind, wall], index): DiaryEvent => {
    const origin = { file: 'diary.csv', row: index + 2 };
    return { date, kind, note: '', origin, ...(wall === undefined ? {} : { wall }) };
  });
  return { ...trial, events: diary };
}

/** One wall against several: nothing tells whether the arms follow the season alike. */
export const oneAgainstFour = madeTrial(
  wallsWithChanges([-4], [0.1, -0.3, 0.4, 0.2]).map((wall, at) => ({ ...wall, block: at < 3 ? 'a' : 'b' })),
);

const checks = ['2024-04-10', '2025-04-10'].map(
  (date): BlockCheck => ({
    ...{ date, instrument: 'mw', block: 'wet', value: measured(80) },
    origin: { file: 'checks.csv', row: 2 },
  }),
);

/** The outcome read with a meter by two people, checked in both windows. */
export function byMeter(
  changes: Partial<Protocol> = {},
  change: (reading: Reading, index: number) => Reading = (one) => one,
): Trial {
  const outcome = { ...soundProtocol.outcome, instrument: 'mw' };
  const held = reading((one, index) =>
    change({ ...one, instrument: 'mw', reader: index % 4 < 2 ? 'R1' : 'R2' }, index),
  );
  return { ...planned({ outcome, ...changes }, held), checks };
}

/** The readings as cores of 100 g dry: `B1` before and `B2` after, unless told otherwise. */
export function cored(
  batches: readonly Omit<DryingBatchRecord, 'batch' | 'origin'>[],
  { batchOf = (core: Core): string | undefined => (isAfter(core) ? 'B2' : 'B1'), trial = sound } = {},
): Trial {
  const cores = trial.readings.map((one): Core => {
    const { date, wall, station, reader = '', knewArm = 'no', origin } = one;
    const core = {
      date,
      wall,
      station,
      container_g: 0,
      wet_g: 100 + amountOf(one),
      dry_g: 100,
      reader,
      knewArm,
      origin,
    };
    const batch = batchOf(core);
    return batch === undefined ? core : { ...core, batch };
  });
  const records = batches.map((batch, index) => {
    const origin = { file: 'batches.csv', row: index + 2 };
    return { ...batch, batch: `B${index + 1}`, origin };
  });
  return { ...trial, readings: [], cores, batches: records };
}

/** Read on several days before and on one after; before is 8 plus `of`, after the wall's own value. */
export function visited(days: readonly string[], of: (wall: string, day: string) => number, trial = sound): Trial {
  const readings = trial.readings.flatMap((one) =>
    isAfter(one) ? [one] : days.map((date) => ({ ...one, date, value: measured(8 + of(one.wall, date)) })),
  );
  return { ...trial, readings };
}

/** Two stations a wall: a low one that follows the treatment and a high one that changes by `change`. */
export function withHighStations(change: (wall: string) => number): Trial {
  const heights = { low: 300, high: 1800 };
  const stations = sound.walls.flatMap(({ wall }) =>
    Object.entries(heights).map(
      ([station, height_mm]): Station => ({ station, wall, height_mm, origin: { file: 'stations.csv', row: 2 } }),
    ),
  );
  const readings = sound.readings.flatMap((one) => [
    { ...one, station: 'low' },
    { ...one, station: 'high', value: measured(5 + (isAfter(one) ? change(one.wall) : 0)) },
  ]);
  return planned({ unaffectedAbove_mm: 1500 }, { ...sound, stations, readings });
}

/** Where a function that rises or falls all the way takes a value. */
export function solve(of: (x: number) => number, value: number, lower: number, upper: number): number {
  const rises = of(upper) > of(lower);
  let [low, high] = [lower, upper];
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (of(middle) < value === rises) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** By how much the first values must be lifted for Welch's p-value against the second to be this one. */
export function liftFor(pValue: number, first: readonly number[], second: readonly number[]): number {
  return solve(
    (lift) =>
      welch(
        first.map((one) => one + lift),
        second,
      ).pValue,
    pValue,
    meanGap(first, second),
    1000,
  );
}

function meanGap(first: readonly number[], second: readonly number[]): number {
  const mean = (values: readonly number[]) => values.reduce((sum, one) => sum + one, 0) / values.length;
  return mean(second) - mean(first);
}
