import { groupBy } from '../plain/group-by.js';
import { comparedStations } from './compared-stations.js';
import type { ComparisonDesign } from './comparison-design.js';
import type { Side, StationChange } from './wall-change.js';
import { unitsByWall } from './walls-as-one.js';

/** A station's change with the wall, unit, block and side that it is nested in, one record a station. */
export interface NestedStation {
  readonly change: number;
  readonly wall: string;
  /** The wall itself, or the site, block or stretch that counts as one. */
  readonly unit: string;
  readonly side: Side;
  readonly block: string;
}

/**
 * The stations behind the units of a design: those with both a before and an after value. A wall whose places were named anew
 * stands there once, with its own change; where after values alone are compared, they stand in for changes.
 */
export function nestedStations(design: ComparisonDesign, stations: readonly StationChange[]): readonly NestedStation[] {
  const units = unitsByWall(design.walls);
  const byWall = groupBy(stations, ({ wall }) => wall);
  return [...byWall].flatMap(([wall, own]) => {
    const unit = units.get(wall);
    if (unit === undefined) return [];
    const parts = comparedStations(own, unit.before === undefined)?.parts ?? [];
    return parts.map(({ change }) => ({ change, wall, unit: unit.wall, side: unit.side, block: unit.block }));
  });
}
