import type { MoistureReading } from '../../moisture/index.js';
import { present } from '../../plain/present.js';
import { fisherExact, median } from '../../statistics/index.js';
import { type Trial, windowSorter } from '../../trial/index.js';
import type { ComparisonDesign } from '../comparison-design.js';
import type { Side } from '../wall-change.js';
import { bothSides } from './sides-of-walls.js';

/** Share lost in one arm less that in the other from which a place counts as unevenly lost: our convention. */
export const unevenShare = 0.1;
/** On at least so many walls of an arm, for one wall's accident is that wall's: our convention. */
const fewestWalls = 2;

/** Of the walls of one side: their stations with a before value, and those of them that have none after. */
export interface LostStations {
  readonly stations: number;
  readonly lost: number;
  /** 0 where there are no stations. */
  readonly share: number;
  /** Walls with a lost station. */
  readonly walls: number;
  /** Before readings at the lost stations, which the comparison cannot use. */
  readonly readings: number;
}

export interface LossAtPlace {
  readonly of: 'all' | 'height' | 'depth';
  /** Height or depth; absent of all stations together. */
  readonly at_mm?: number;
  readonly lost: Readonly<Record<Side, LostStations>>;
  /** Share lost of the treated walls' stations less that of the untreated walls'; absent where a side has no station there. */
  readonly difference?: number;
  /** Fisher's exact test, stations as units: stations of a wall are often lost together, so that it is too small rather than too large. */
  readonly pValue?: number;
  /** The shares differ by more than 0.1, on at least two walls of the side that lost more (our conventions). */
  readonly isUneven: boolean;
}

export interface LossesByPlace {
  readonly all: LossAtPlace;
  readonly heights: readonly LossAtPlace[];
  readonly depths: readonly LossAtPlace[];
  /** The place where the shares lost differ most; absent where no place has stations of both sides. */
  readonly largest?: LossAtPlace;
  /** Stations with an after value and none before, as where stations were named anew. */
  readonly onlyAfter: Readonly<Record<Side, number>>;
  readonly visits: Readonly<Record<Side, MissedVisits>>;
}

/** Visit days of a wall short of what half the walls of the comparison or more had in that window, summed over walls. */
export interface MissedVisits {
  readonly expected: number;
  readonly missed: number;
}

/**
 * Stations of the compared walls that were read before and have no value after, by side, height and depth, and visits that were
 * missed. A value below the detection limit is a value here: it was read. Walls lost as a whole are counted elsewhere.
 *
 * @param readings of the outcome's instrument
 * @param design the walls in the comparison
 * @example lossesByPlace(trial, outcomeReadings, design).all.lost.treated // { stations: 72, lost: 0, share: 0, walls: 0, readings: 0 }
 */
export function lossesByPlace(
  trial: Trial,
  readings: readonly MoistureReading[],
  design: ComparisonDesign,
): LossesByPlace {
  const stations = stationsRead(trial, readings, design);
  const placesOf = (of: 'height' | 'depth') => {
    const key = `${of}_mm` as const;
    const places = [...new Set(stations.flatMap((station) => station[key] ?? []))].sort((a, b) => a - b);
    return places.map((at_mm) =>
      lossAt(
        stations.filter((station) => station[key] === at_mm),
        { of, at_mm },
      ),
    );
  };
  const [all, heights, depths] = [lossAt(stations, { of: 'all' }), placesOf('height'), placesOf('depth')];
  const size = ({ difference = 0 }: LossAtPlace) => Math.abs(difference);
  const compared = [...heights, ...depths, all].filter(({ difference }) => difference !== undefined);
  const largest = compared.toSorted((one, other) => size(other) - size(one))[0];
  const onlyAfter = (side: Side) =>
    stations.filter((one) => one.side === side && one.before === 0 && one.after > 0).length;
  return {
    ...{ all, heights, depths },
    ...present({ largest }),
    onlyAfter: { treated: onlyAfter('treated'), untreated: onlyAfter('untreated') },
    visits: missedVisits(trial, readings, design),
  };
}

interface StationRead {
  readonly wall: string;
  readonly side: Side;
  readonly height_mm?: number;
  readonly depth_mm?: number;
  /** Readings with a value, or known to lie below the detection limit. */
  before: number;
  after: number;
}

function stationsRead(
  trial: Trial,
  readings: readonly MoistureReading[],
  design: ComparisonDesign,
): readonly StationRead[] {
  const sides = new Map(design.walls.map(({ wall, side }) => [wall, side]));
  const places = new Map(trial.stations.map((station) => [JSON.stringify([station.wall, station.station]), station]));
  const windowOf = windowSorter(trial);
  const found = new Map<string, StationRead>();
  for (const { wall, station, day, value } of readings) {
    const side = sides.get(wall);
    if (side === undefined || value.kind === 'missing') continue;
    const window = windowOf(wall, day);
    if (window === undefined) continue;
    const key = JSON.stringify([wall, station]);
    const known = found.get(key) ?? { wall, side, ...placeOf(places.get(key)), before: 0, after: 0 };
    known[window] += 1;
    found.set(key, known);
  }
  return [...found.values()];
}

function placeOf(station: Trial['stations'][number] | undefined): Pick<StationRead, 'height_mm' | 'depth_mm'> {
  const { height_mm, depth_mm } = station ?? {};
  return { ...present({ height_mm, depth_mm }) };
}

function lossAt(stations: readonly StationRead[], place: Pick<LossAtPlace, 'of' | 'at_mm'>): LossAtPlace {
  const lost = { treated: lostOf(stations, 'treated'), untreated: lostOf(stations, 'untreated') };
  if (bothSides.some((side) => lost[side].stations === 0)) return { ...place, lost, isUneven: false };
  const difference = lost.treated.share - lost.untreated.share;
  const cells = ({ lost: having, stations: all }: LostStations) => ({ having, not: all - having });
  const { pValue } = fisherExact({ x: cells(lost.treated), y: cells(lost.untreated) });
  const worse = difference > 0 ? lost.treated : lost.untreated;
  const isUneven = Math.abs(difference) > unevenShare && worse.walls >= fewestWalls;
  return { ...place, lost, difference, pValue, isUneven };
}

function lostOf(stations: readonly StationRead[], side: Side): LostStations {
  const own = stations.filter((one) => one.side === side && one.before > 0);
  const lost = own.filter(({ after }) => after === 0);
  return {
    stations: own.length,
    lost: lost.length,
    share: own.length === 0 ? 0 : lost.length / own.length,
    walls: new Set(lost.map(({ wall }) => wall)).size,
    readings: lost.reduce((sum, { before }) => sum + before, 0),
  };
}

function missedVisits(
  trial: Trial,
  readings: readonly MoistureReading[],
  design: ComparisonDesign,
): Readonly<Record<Side, MissedVisits>> {
  const counts = { treated: { expected: 0, missed: 0 }, untreated: { expected: 0, missed: 0 } };
  if (design.walls.length === 0) return counts;
  const windowOf = windowSorter(trial);
  for (const window of ['before', 'after'] as const) {
    const days = new Map<string, Set<string>>(design.walls.map(({ wall }) => [wall, new Set()]));
    for (const { wall, day, value } of readings)
      if (value.kind !== 'missing' && windowOf(wall, day) === window) days.get(wall)?.add(day);
    const planned = Math.ceil(median([...days.values()].map(({ size }) => size)));
    for (const { wall, side } of design.walls) {
      counts[side].expected += planned;
      counts[side].missed += Math.max(0, planned - (days.get(wall)?.size ?? 0));
    }
  }
  return counts;
}
