import { groupBy } from '../../plain/group-by.js';
import type { ReadByBoth } from '../../statistics/index.js';
import type { MeterCalibration } from '../calibration/calibrate-meter.js';

/** Moisture of every wall by meter (x), from the calibration without that wall, and by core (y). */
export function bothByWall({ pairs, onUnseenWalls }: MeterCalibration): readonly ReadByBoth[] {
  const walls = groupBy(pairs.entries(), ([, { wall }]) => wall);
  return [...walls.values()].map((own) => ({
    x: own.flatMap(([index]) => onUnseenWalls.predicted[index] ?? []),
    y: own.map(([, { moisture }]) => moisture),
  }));
}
