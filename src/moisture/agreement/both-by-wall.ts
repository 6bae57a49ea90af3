import type { ReadByBoth } from '../../statistics/index.js';
import type { MeterCalibration } from '../calibration/calibrate-meter.js';

/** Moisture of every wall by meter (x), from the calibration without that wall, and by core (y). */
export function bothByWall({ pairs, onUnseenWalls }: MeterCalibration): readonly ReadByBoth[] {
  const walls = new Map<string, { x: number[]; y: number[] }>();
  for (const [index, { wall, moisture }] of pairs.entries()) {
    const own = walls.get(wall) ?? { x: [], y: [] };
    own.x.push(onUnseenWalls.predicted[index] as number);
    own.y.push(moisture);
    walls.set(wall, own);
  }
  return [...walls.values()];
}
