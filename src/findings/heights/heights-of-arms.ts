import { type ArmedWalls, type StationChange, wallsByArm } from '../../analysis/index.js';
import { mean } from '../../statistics/index.js';

/** Moisture by height of one arm, before and after, from stations with a height and both values. */
export interface HeightsOfArm {
  readonly arm: string;
  readonly walls: number;
  readonly stations: readonly StationAtHeight[];
  /** From the foot up; empty where there are too many heights for a mean at each. */
  readonly means: readonly {
    readonly height_mm: number;
    readonly stations: number;
    readonly before: number;
    readonly after: number;
  }[];
}

export interface StationAtHeight {
  readonly wall: string;
  readonly height_mm: number;
  readonly before: number;
  readonly after: number;
}

/** Beyond this many different heights a mean at each would be a mean of one or two stations. */
const mostHeights = 12;

/**
 * Stations by height for each arm that has any, treated arms first.
 *
 * @example heightsOfArms(opinion, opinion.stations).length
 */
export function heightsOfArms(walls: ArmedWalls, stations: readonly StationChange[]): readonly HeightsOfArm[] {
  return wallsByArm(walls).flatMap(({ arm, walls: own }) => {
    const names = new Set(own.map(({ wall }) => wall));
    const placed = stations.filter(({ wall }) => names.has(wall)).flatMap(withBoth);
    const count = new Set(placed.map(({ wall }) => wall)).size;
    return placed.length === 0 ? [] : [{ arm, walls: count, stations: placed, means: meansOf(placed) }];
  });
}

function withBoth({ wall, height_mm, before, after }: StationChange): readonly StationAtHeight[] {
  return height_mm === undefined || before === undefined || after === undefined
    ? []
    : [{ wall, height_mm, before, after }];
}

function meansOf(stations: readonly StationAtHeight[]): HeightsOfArm['means'] {
  const heights = [...new Set(stations.map(({ height_mm }) => height_mm))].sort((a, b) => a - b);
  if (heights.length > mostHeights) return [];
  return heights.map((height_mm) => {
    const own = stations.filter((station) => station.height_mm === height_mm);
    return {
      height_mm,
      stations: own.length,
      before: mean(own.map(({ before }) => before)),
      after: mean(own.map(({ after }) => after)),
    };
  });
}
