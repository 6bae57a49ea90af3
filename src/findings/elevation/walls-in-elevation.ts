import type { StationChange, WallChange } from '../../analysis/index.js';
import { groupBy } from '../../plain/group-by.js';
import { mean } from '../../statistics/index.js';
import type { Trial } from '../../trial/index.js';

/** A place on a wall with its values, a mean over the depths that were measured there. */
interface PlaceInElevation {
  readonly position_mm: number;
  readonly height_mm: number;
  readonly before: number;
  readonly after: number;
}

interface WallInElevation {
  readonly wall: string;
  readonly arm: string;
  readonly change: number;
  readonly places: readonly PlaceInElevation[];
}

export interface WallsInElevation {
  readonly walls: readonly WallInElevation[];
  /** How many walls have places along the wall and heights; `walls` holds all of them, or three of each arm. */
  readonly of: number;
}

/** More walls are no longer read side by side. Our own rule. */
const mostWalls = 6;

/**
 * Walls whose places are known along the wall and in height, at two positions and two heights at least, and read in both windows. Of more
 * than six, the largest, the middle and the smallest change of each arm (of an even number the middle that changed more); undefined where no wall has such places.
 *
 * @example wallsInElevation(trial, changes.stations, wallChanges(trial, changes.stations).walls) // undefined
 */
export function wallsInElevation(
  { stations: placed, protocol }: Pick<Trial, 'stations' | 'protocol'>,
  stations: readonly StationChange[],
  walls: readonly WallChange[],
): WallsInElevation | undefined {
  const positions = new Map(
    placed.flatMap(({ wall, station, position_mm }) =>
      position_mm === undefined ? [] : [[keyOf(wall, station), position_mm] as const],
    ),
  );
  const known = walls.flatMap(({ wall, arm, change, before }): WallInElevation[] => {
    const own = stations.filter((station) => station.wall === wall);
    const places = placesOf(own, positions);
    return before === undefined || !isSpread(places) ? [] : [{ wall, arm, change, places }];
  });
  if (known.length === 0) return undefined;
  const arms = protocol.arms.map(({ arm }) => known.filter((wall) => wall.arm === arm));
  const sign = protocol.outcome.better === 'lower' ? 1 : -1;
  return {
    walls: known.length <= mostWalls ? arms.flat() : arms.flatMap((own) => endsAndMiddle(own, sign)),
    of: known.length,
  };
}

function keyOf(wall: string, station: string): string {
  return JSON.stringify([wall, station]);
}

function placesOf(
  stations: readonly StationChange[],
  positions: ReadonlyMap<string, number>,
): readonly PlaceInElevation[] {
  const placed = stations.flatMap(({ wall, station, height_mm, before, after }) => {
    const position_mm = positions.get(keyOf(wall, station));
    const isWhole = position_mm !== undefined && height_mm !== undefined && before !== undefined && after !== undefined;
    return isWhole ? [{ position_mm, height_mm, before, after }] : [];
  });
  const byPlace = groupBy(placed, ({ position_mm, height_mm }) => `${position_mm} ${height_mm}`);
  return [...byPlace.values()].map((own) => {
    const [{ position_mm, height_mm }] = own;
    return {
      position_mm,
      height_mm,
      before: mean(own.map(({ before }) => before)),
      after: mean(own.map(({ after }) => after)),
    };
  });
}

/** Whether places differ along the wall and in height; along one line the profile over height shows as much. */
function isSpread(places: readonly PlaceInElevation[]): boolean {
  const count = (of: (place: PlaceInElevation) => number) => new Set(places.map(of)).size;
  return count(({ position_mm }) => position_mm) >= 2 && count(({ height_mm }) => height_mm) >= 2;
}

function endsAndMiddle(walls: readonly WallInElevation[], sign: 1 | -1): readonly WallInElevation[] {
  const inOrder = walls.toSorted((one, other) => sign * (one.change - other.change));
  const picked = new Set([0, Math.floor((inOrder.length - 1) / 2), inOrder.length - 1]);
  return inOrder.filter((_, at) => picked.has(at));
}
