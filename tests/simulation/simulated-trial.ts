import { normalDraws, type RandomStream, shuffled, uniform } from '../../src/statistics/index.js';

export type Allocation = 'complete' | 'pairs' | 'blocks-of-four';

export interface SimulatedReading {
  readonly wall: string;
  readonly block: string;
  /** Named with its wall, so that stations of different walls differ. */
  readonly station: string;
  readonly visit: string;
  readonly after: boolean;
  readonly treated: boolean;
  readonly value: number;
}

export interface SimulatedWall {
  readonly wall: string;
  readonly block: string;
  readonly treated: boolean;
  readonly before: number;
  readonly after: number;
  readonly change: number;
  /** Each after reading less its station's mean before. */
  readonly readingChanges: readonly number[];
}

export interface SimulatedTrial {
  readonly readings: readonly SimulatedReading[];
  readonly walls: readonly SimulatedWall[];
}

/** What the treatment does to a wall's change, in percent by mass. */
export const TRUE_EFFECT = -1.5;

/**
 * Standard deviations in percent by mass, of the order seen in brick (common practice, no source). A wall's own change is
 * what makes walls the units: all readings of a wall share it.
 */
export const SPREAD = {
  block: 1.5,
  blockChange: 0.7,
  wall: 2,
  wallChange: 1,
  station: 1,
  visit: 0.5,
  reading: 0.8,
} as const;

const STATIONS = 3;
const VISITS = ['visit 1', 'visit 2', 'visit 3', 'visit 4'] as const;
const FIRST_AFTER = 2;
/** Chance that a reading was not taken, so that nothing is balanced. */
const MISSED = 0.1;

/** Visits in stations in walls (in blocks), half of the walls treated after the second of four visits. */
export function simulatedTrial(stream: RandomStream, wallCount: number, allocation: Allocation): SimulatedTrial {
  const season = normalDraws(stream, VISITS.length);
  const blocks = allocatedBlocks(stream, wallCount, allocation);
  const readings = blocks.flatMap((treatments, block) => {
    const draws = allocation === 'complete' ? [0, 0] : normalDraws(stream, 2);
    return treatments.flatMap((treated, place) => {
      const wall = { wall: `wall ${block}.${place}`, block: `block ${block}`, treated };
      return wallReadings(stream, wall, draws[0]! * SPREAD.block, draws[1]! * SPREAD.blockChange, season);
    });
  });
  return { readings, walls: summarised(readings) };
}

/** For each block, which of its walls are treated. Without blocks all walls stand in one. */
function allocatedBlocks(stream: RandomStream, wallCount: number, allocation: Allocation): boolean[][] {
  const size = allocation === 'complete' ? wallCount : allocation === 'pairs' ? 2 : 4;
  const half = Array.from({ length: size }, (_, place) => place < size / 2);
  return Array.from({ length: wallCount / size }, () => [...shuffled(stream, half)]);
}

function wallReadings(
  stream: RandomStream,
  wall: Pick<SimulatedReading, 'wall' | 'block' | 'treated'>,
  blockLevel: number,
  blockChange: number,
  season: ArrayLike<number>,
): SimulatedReading[] {
  const [level, change] = normalDraws(stream, 2);
  const wallChange = blockChange + change! * SPREAD.wallChange + (wall.treated ? TRUE_EFFECT : 0);
  return Array.from({ length: STATIONS }, (_, station) => station).flatMap((station) => {
    const base = 9 + blockLevel + level! * SPREAD.wall + normalDraws(stream, 1)[0]! * SPREAD.station;
    return VISITS.flatMap((visit, number) => {
      const after = number >= FIRST_AFTER;
      const value = base + season[number]! * SPREAD.visit + (after ? wallChange : 0);
      const reading = { ...wall, station: `${wall.wall}, station ${station}`, visit, after };
      const error = normalDraws(stream, 1)[0]! * SPREAD.reading;
      return uniform(stream) < MISSED ? [] : [{ ...reading, value: value + error }];
    });
  });
}

/** Station means before and after, then their mean over the stations of a wall that have both. */
function summarised(readings: readonly SimulatedReading[]): SimulatedWall[] {
  const walls = grouped(readings, ({ wall }) => wall);
  return walls.flatMap((ofWall) => {
    const stations = grouped(ofWall, ({ station }) => station).flatMap((ofStation) => {
      const before = ofStation.filter(({ after }) => !after).map(({ value }) => value);
      const after = ofStation.filter((reading) => reading.after).map(({ value }) => value);
      return before.length > 0 && after.length > 0 ? [{ before: meanOf(before), after }] : [];
    });
    if (stations.length === 0) return [];
    const { wall, block, treated } = ofWall[0]!;
    const before = meanOf(stations.map((station) => station.before));
    const after = meanOf(stations.map((station) => meanOf(station.after)));
    const readingChanges = stations.flatMap((station) => station.after.map((value) => value - station.before));
    return [{ wall, block, treated, before, after, change: after - before, readingChanges }];
  });
}

function grouped<Item>(items: readonly Item[], key: (item: Item) => string): Item[][] {
  const groups = new Map<string, Item[]>();
  for (const item of items) {
    const group = groups.get(key(item));
    if (group === undefined) groups.set(key(item), [item]);
    else group.push(item);
  }
  return [...groups.values()];
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
