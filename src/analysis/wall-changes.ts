import { mean } from '../statistics/index.js';
import type { Trial, Wall } from '../trial/index.js';
import { comparisonSides } from './comparison-sides.js';
import type { LeftOutWall, Side, StationChange, WallChange } from './wall-change.js';

export interface WallChanges {
  readonly walls: readonly WallChange[];
  readonly leftOut: readonly LeftOutWall[];
}

/**
 * Step 2 of the primary analysis: a wall's change is the mean over its stations that have both values of after minus
 * before. A wall without such a station is left out and named.
 *
 * @example wallChanges(trial, changes.stations).walls[0].change // -1.111
 */
export function wallChanges(trial: Trial, stations: readonly StationChange[]): WallChanges {
  const sides = comparisonSides(trial.protocol);
  const byWall = new Map<string, StationChange[]>();
  for (const station of stations) {
    const own = byWall.get(station.wall);
    if (own === undefined) byWall.set(station.wall, [station]);
    else own.push(station);
  }
  const walls: WallChange[] = [];
  const leftOut: LeftOutWall[] = [];
  for (const wall of trial.walls) {
    const side = sides.get(wall.arm);
    const own = byWall.get(wall.wall) ?? [];
    const complete = own.flatMap(({ before, after }) =>
      before === undefined || after === undefined ? [] : [{ before, after }],
    );
    if (side === undefined)
      leftOut.push({
        wall: wall.wall,
        reason: `its arm ${wall.arm} is not in the primary comparison`,
      });
    else if (complete.length === 0) leftOut.push({ wall: wall.wall, reason: whyIncomplete(own) });
    else walls.push(changeOf(wall, side, complete));
  }
  return { walls, leftOut };
}

function changeOf(wall: Wall, side: Side, stations: readonly { before: number; after: number }[]): WallChange {
  return {
    wall: wall.wall,
    arm: wall.arm,
    side,
    block: wall.block ?? '',
    before: mean(stations.map(({ before }) => before)),
    after: mean(stations.map(({ after }) => after)),
    change: mean(stations.map(({ before, after }) => after - before)),
    stations: stations.length,
  };
}

function whyIncomplete(stations: readonly StationChange[]): string {
  const hasBefore = stations.some(({ before }) => before !== undefined);
  const hasAfter = stations.some(({ after }) => after !== undefined);
  if (hasBefore && hasAfter) return 'no station of it has both a before and an after value';
  if (hasBefore) return 'no after value';
  if (hasAfter) return 'no before value';
  return 'neither a before nor an after value';
}
