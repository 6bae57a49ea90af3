import { type LimitsOfAgreement, limitsOfAgreement, limitsOfRepeated } from '../../statistics/index.js';
import type { MeterCalibration } from '../calibration/calibrate-meter.js';
import { bothByWall } from './both-by-wall.js';

/**
 * Limits of agreement of moisture by meter less moisture by core, for single readings at single places: each wall's moisture by
 * meter comes from the calibration without that wall. The walls are the units, and what is true moves between their readings.
 *
 * @throws StatisticsError as `limitsOfRepeated`
 * @example agreementOnWalls(calibration).upper.estimate // 2.134 percentage points
 * @source Bland & Altman 1999, Stat. Methods Med. Res. 8:135-160 (from memory)
 */
export function agreementOnWalls(calibration: MeterCalibration, level = 0.95): LimitsOfAgreement {
  const things = bothByWall(calibration);
  if (things.every(({ x }) => x.length === 1))
    return limitsOfAgreement(
      things.map(({ x, y }) => (x[0] as number) - (y[0] as number)),
      { level },
    );
  return limitsOfRepeated({ kind: 'varying', things }, { level });
}
