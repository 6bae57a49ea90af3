import { groupBy } from '../plain/group-by.js';
import { mean } from '../statistics/index.js';
import type { Trial, Wall } from '../trial/index.js';
import { comparesAfterAlone } from './after-alone.js';
import { type ComparedStations, comparedStations } from './compared-stations.js';
import { comparisonSides } from './comparison-sides.js';
import type { LeftOutWall, Side, StationChange, WallChange, WallLeftOut } from './wall-change.js';

export interface WallChanges {
  readonly walls: readonly WallChange[];
  readonly leftOut: readonly LeftOutWall[];
}

/**
 * Step 2 of the primary analysis: a wall's change is the mean over its stations that have both values of after minus
 * before. Where no station has both (places named anew) it is the mean of its after stations less that of its before stations,
 * and in a randomised trial that was never read before its after value stands by itself. Any other wall is left out and named.
 *
 * @example wallChanges(trial, changes.stations).walls[0].change // -1.111
 */
export function wallChanges(trial: Trial, stations: readonly StationChange[]): WallChanges {
  const sides = comparisonSides(trial.protocol);
  const byWall = groupBy(stations, ({ wall }) => wall);
  const isAfterAlone = comparesAfterAlone(trial, stations);
  const walls: WallChange[] = [];
  const leftOut: LeftOutWall[] = [];
  for (const wall of trial.walls) {
    const side = sides.get(wall.arm);
    const own = byWall.get(wall.wall) ?? [];
    const compared = comparedStations(own, isAfterAlone);
    if (side === undefined) leftOut.push({ wall: wall.wall, reason: { code: 'other-arm', arm: wall.arm } });
    else if (compared === undefined) leftOut.push({ wall: wall.wall, reason: whyIncomplete(own) });
    else walls.push(changeOf(wall, side, compared));
  }
  return { walls, leftOut };
}

function changeOf(wall: Wall, side: Side, { places, stations, parts }: ComparedStations): WallChange {
  const befores = parts.flatMap(({ before }) => before ?? []);
  return {
    wall: wall.wall,
    arm: wall.arm,
    side,
    block: wall.block ?? '',
    ...(befores.length === 0 ? {} : { before: mean(befores) }),
    after: mean(parts.map(({ after }) => after)),
    change: mean(parts.map(({ change }) => change)),
    stations: stations.length,
    places,
  };
}

function whyIncomplete(stations: readonly StationChange[]): WallLeftOut {
  const hasBefore = stations.some(({ before }) => before !== undefined);
  const hasAfter = stations.some(({ after }) => after !== undefined);
  if (hasBefore) return { code: 'no-after' };
  if (hasAfter) return { code: 'no-before' };
  return { code: 'no-before-or-after' };
}
