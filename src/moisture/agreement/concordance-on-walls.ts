import { type Concordance, concordance, mean } from '../../statistics/index.js';
import type { MeterCalibration } from '../calibration/calibrate-meter.js';
import { bothByWall } from './both-by-wall.js';

/**
 * Concordance correlation of the walls' means of moisture by meter and by core, one pair a wall: each wall's moisture by meter comes
 * from the calibration without that wall. It is higher for walls that differ widely, so it compares meters on the same walls only.
 *
 * @throws StatisticsError as `concordance`, which needs four walls
 * @example concordanceOnWalls(calibrateMeter(pairs)).estimate // 0.9856
 */
export function concordanceOnWalls(calibration: MeterCalibration, level = 0.95): Concordance {
  const walls = bothByWall(calibration);
  return concordance(
    walls.map(({ x }) => mean(x)),
    walls.map(({ y }) => mean(y)),
    { level },
  );
}
