import type { MoistureReading } from '../../moisture/index.js';
import { type Interval, isStatisticsError } from '../../statistics/index.js';
import type { Trial, Windows } from '../../trial/index.js';
import type { Answer } from '../answer.js';
import { type ComparisonDesign, comparisonDesign } from '../comparison-design.js';
import { differenceOfWalls } from '../difference-of-walls.js';
import { byRanks } from './defensible-analyses.js';
import {
  type ChangedWall,
  changeOfWall,
  type IndexedReading,
  indexedReadings,
  type StationsOfWall,
  stationsBetween,
} from './indexed-readings.js';
import { otherWindows } from './other-windows.js';
import { listedStations } from './without-stations.js';

/** What is left out: a unit, the stations of a place, one station, or the readings of a reader. */
export type LeftOut = 'wall' | 'block' | 'reader' | 'height' | 'depth' | 'station';

/** The primary analysis made otherwise, and what becomes of the verdict. */
export interface OtherVerdict<Code extends string> {
  readonly id: string;
  /** Absent, with the interval's code, where the analysis cannot be made. */
  readonly estimate?: number;
  readonly interval?: Interval;
  readonly code?: Code;
  /** `in`: zero comes into an interval that left it out; `out`: it leaves one that held it. Absent: as before. */
  readonly zero?: 'in' | 'out';
}

export interface WithoutUnit<Code extends string> extends OtherVerdict<Code> {
  readonly of: LeftOut;
  /** The wall, block, reader, height or depth in mm, or station (with its wall). */
  readonly left: string;
}

export interface Fragility<Code extends string> {
  readonly code: Code;
  /** How many of each kind were left out in turn. */
  readonly tried: Readonly<Record<LeftOut, number>>;
  /** Those without which the code is another, or zero enters or leaves the interval. */
  readonly turning: readonly WithoutUnit<Code>[];
  /** Those without which there would be no interval at all. */
  readonly needed: readonly WithoutUnit<Code>[];
  /**
   * Choices that every trial allows: windows, heights, depths, single stations (the two furthest apart where there are many), blocks
   * ignored, ranks. What rests on the record of the air or on what readers knew is not among them, so that recording more never
   * makes a verdict look more fragile.
   */
  readonly choices: readonly OtherVerdict<Code>[];
  /** Of the choices with an interval: those that keep the code, over all. 1 where there is none. */
  readonly keptShare: number;
  /** By blind readings alone, where some readings are blind and some are not; no part of the share. */
  readonly blindOnly?: OtherVerdict<Code>;
}

/**
 * On how little the verdict hangs: the primary analysis without each wall (in blocks, without each block), each reader, height, depth
 * and station, and by the choices that somebody could have defended beforehand.
 *
 * @param readings of the outcome's instrument
 * @param design the primary comparison
 * @param codeOf the verdict's code that belongs to an interval
 * @returns nothing where the primary analysis has no interval
 * @example
 * const codeOf = (interval) => verdictCode(interval, 2, 'lower');
 * fragility(trial, outcomeReadings, design, codeOf).keptShare // 1
 */
export function fragility<Code extends string>(
  trial: Trial,
  readings: readonly MoistureReading[],
  design: ComparisonDesign,
  codeOf: (interval: Interval) => Code,
): Fragility<Code> | undefined {
  const { windows, confidence: level } = trial.protocol;
  const primary = answerOf(design, level);
  if (primary === undefined || windows === undefined) return undefined;
  const code = codeOf(primary.interval);
  const held = holdsZero(primary.interval);
  const judge = (id: string, answer: AnswerWithInterval | undefined): OtherVerdict<Code> => {
    if (answer === undefined) return { id };
    const { estimate, interval } = answer;
    const holds = holdsZero(interval);
    return {
      id,
      estimate,
      interval,
      code: codeOf(interval),
      ...(holds === held ? {} : { zero: holds ? 'in' : 'out' }),
    };
  };
  const judgeWalls = (id: string, walls: readonly ChangedWall[]) =>
    judge(id, answerOf(comparisonDesign(walls).design, level));
  const index = indexedReadings(trial, readings);
  const fromReadings = (id: string, inside: Windows, isKept?: (reading: IndexedReading) => boolean) =>
    judgeWalls(
      id,
      stationsBetween(index, inside, isKept).flatMap((wall) => changeOfWall(wall) ?? []),
    );

  const units = withoutUnits(design).map(({ of, left, walls }) => ({
    ...{ of, left },
    ...judgeWalls(`without-${of}`, walls),
  }));
  const readers = [...new Set(readings.flatMap(({ reader }) => reader ?? []))].sort();
  const withoutReaders = (readers.length < 2 ? [] : readers).map((left) => ({
    of: 'reader' as const,
    left,
    ...fromReadings('without-reader', windows, ({ reader }) => reader !== left),
  }));
  const stations = withoutStations(stationsBetween(index, windows)).map(({ of, left, walls }) => ({
    ...{ of, left },
    ...judgeWalls(`without-${of}`, walls),
  }));
  const left: readonly WithoutUnit<Code>[] = [...units, ...withoutReaders, ...stations];

  const choices = [
    ...otherWindows(trial, index.days).map((choice) => fromReadings(choice.id, choice.windows)),
    ...(['height', 'depth', 'station'] as const).flatMap((of) =>
      furthestApart(stations.filter((one) => one.of === of)),
    ),
    ...(design.kind === 'complete' ? [] : [judgeWalls('without-blocks', withoutNames(design.walls))]),
    judge('ranks', intervalOf(byRanks(trial, design))),
  ];
  const withCode = choices.filter((choice) => choice.code !== undefined);
  const blind = readings.filter(({ knewArm }) => knewArm === 'no').length;
  const isMixed = blind > 0 && blind < readings.length;
  const blindOnly = isMixed
    ? { blindOnly: fromReadings('blind-only', windows, ({ knewArm }) => knewArm === 'no') }
    : {};
  const count = (of: LeftOut) => left.filter((one) => one.of === of).length;
  return {
    code,
    tried: {
      ...{ wall: count('wall'), block: count('block'), reader: count('reader') },
      ...{ height: count('height'), depth: count('depth'), station: count('station') },
    },
    turning: left.filter((one) => one.code !== undefined && (one.code !== code || one.zero !== undefined)),
    needed: left.filter((one) => one.code === undefined),
    choices,
    keptShare: withCode.length === 0 ? 1 : withCode.filter((one) => one.code === code).length / withCode.length,
    ...blindOnly,
  };
}

function holdsZero({ lower, upper }: Interval): boolean {
  return lower <= 0 && upper >= 0;
}

interface AnswerWithInterval {
  readonly estimate: number;
  readonly interval: Interval;
}

/** The primary difference, without the words that go with it. */
function answerOf(design: ComparisonDesign<ChangedWall>, level: number): AnswerWithInterval | undefined {
  try {
    return differenceOfWalls(design, ({ change }) => change, level).result;
  } catch (error) {
    if (!isStatisticsError(error)) throw error;
    return undefined;
  }
}

function intervalOf(answer: Answer): AnswerWithInterval | undefined {
  if (answer.kind !== 'estimated' || answer.estimate.interval === undefined) return undefined;
  return { estimate: answer.estimate.estimate, interval: answer.estimate.interval };
}

function withoutNames(walls: readonly ChangedWall[]): readonly ChangedWall[] {
  return walls.map((wall) => ({ ...wall, block: '' }));
}

interface Rest {
  readonly of: LeftOut;
  readonly left: string;
  readonly walls: readonly ChangedWall[];
}

function withoutUnits({ kind, walls }: ComparisonDesign): readonly Rest[] {
  const of = kind === 'complete' ? 'wall' : 'block';
  return [...new Set(walls.map((wall) => wall[of]))].map((left) => ({
    ...{ of, left },
    walls: walls.filter((wall) => wall[of] !== left),
  }));
}

/** Leaving a station out changes its own wall alone, so only that one is reckoned anew. */
function withoutStations(all: readonly StationsOfWall[]): readonly Rest[] {
  const walls = all.filter(({ changes }) => changes.length > 0);
  // Where a wall has one station, to leave it out is to leave out the wall.
  if (walls.every(({ changes }) => changes.length < 2)) return [];
  const full = walls.map(changeOfWall);
  const single = walls.flatMap(({ placed, stations, changes }, at) =>
    stations.map(({ station }, out): Rest => {
      const changed = changeOfWall({ placed, changes: changes.filter((_, index) => index !== out) });
      return {
        ...{ of: 'station', left: station === '' ? placed.wall : `${station} of ${placed.wall}` },
        walls: full.flatMap((wall, index) => (index === at ? changed : wall) ?? []),
      };
    }),
  );
  return [...withoutPlaces(walls, 'height'), ...withoutPlaces(walls, 'depth'), ...single];
}

function withoutPlaces(walls: readonly StationsOfWall[], of: 'height' | 'depth'): readonly Rest[] {
  const key = `${of}_mm` as const;
  const places = [...new Set(walls.flatMap(({ stations }) => stations.flatMap((station) => station[key] ?? [])))];
  if (places.length < 2) return [];
  return places
    .sort((a, b) => a - b)
    .map((at) => ({
      ...{ of, left: `${at}` },
      walls: walls.flatMap(
        ({ placed, stations, changes }) =>
          changeOfWall({ placed, changes: changes.filter((_, index) => stations[index]?.[key] !== at) }) ?? [],
      ),
    }));
}

/** All of a few, and of many the two that stand for them. */
function furthestApart<Code extends string>(verdicts: readonly WithoutUnit<Code>[]): readonly OtherVerdict<Code>[] {
  const bare = verdicts.map(({ of: _, left, ...verdict }) => ({ ...verdict, id: `${verdict.id}-${left}` }));
  if (bare.length <= listedStations) return bare;
  const sorted = bare
    .flatMap((verdict) => (verdict.estimate === undefined ? [] : [{ verdict, estimate: verdict.estimate }]))
    .sort((one, other) => one.estimate - other.estimate);
  return [sorted[0], sorted.at(-1)].flatMap((end) => end?.verdict ?? []);
}
