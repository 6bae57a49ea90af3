import { mean } from '../../statistics/index.js';
import { beforeByWall } from '../before-by-wall.js';
import { type ComparisonDesign, comparisonDesign } from '../comparison-design.js';
import type { StationChange, WallChange } from '../wall-change.js';

/**
 * The design with each wall's before value taken from all its stations that were read before, those that have no after value
 * included: walls that were alike must not look unlike because stations were lost later. A unit's is the mean over its walls.
 *
 * @example withAllBefore(design, changes.stations).walls.length // 24
 */
export function withAllBefore(design: ComparisonDesign, stations: readonly StationChange[]): ComparisonDesign {
  const byWall = beforeByWall(stations);
  const beforeOf = ({ wall, unit }: WallChange): number | undefined => {
    const values = (unit?.walls ?? [wall]).flatMap((one) => {
      const own = byWall.get(one);
      return own === undefined ? [] : [mean(own)];
    });
    return values.length === 0 ? undefined : mean(values);
  };
  const walls = design.walls.map((wall) => {
    const before = beforeOf(wall);
    return before === undefined ? wall : { ...wall, before };
  });
  return comparisonDesign(walls).design;
}
