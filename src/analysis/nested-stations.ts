import type { ComparisonDesign } from './comparison-design.js';
import type { Side, StationChange } from './wall-change.js';

/** A station's change with the wall, block and side that it is nested in, one record a station. */
export interface NestedStation {
  readonly change: number;
  readonly wall: string;
  readonly side: Side;
  readonly block: string;
}

/** The stations behind the walls of a design: those with both a before and an after value. */
export function nestedStations(design: ComparisonDesign, stations: readonly StationChange[]): readonly NestedStation[] {
  const walls = new Map(design.walls.map((wall) => [wall.wall, wall]));
  return stations.flatMap(({ wall: name, before, after }) => {
    const wall = walls.get(name);
    if (wall === undefined || before === undefined || after === undefined) return [];
    return [{ change: after - before, wall: name, side: wall.side, block: wall.block }];
  });
}
