import { type LimitsOfAgreement, limitsOfAgreement, limitsOfRepeated } from '../../statistics/index.js';
import type { MeterCalibration } from '../calibration/calibrate-meter.js';

/**
 * Limits of agreement of moisture by meter less moisture by core, for single readings at single places: each wall's moisture by
 * meter comes from the calibration without that wall. The walls are the units, and what is true moves between their readings.
 *
 * @throws StatisticsError as `limitsOfRepeated`
 * @example agreementOnWalls(calibration).upper.estimate // 2.134 percentage points
 * @source Bland & Altman 1999, Stat. Methods Med. Res. 8:135-160 (from memory)
 */
export function agreementOnWalls(calibration: MeterCalibration, level = 0.95): LimitsOfAgreement {
  const walls = new Map<string, { x: number[]; y: number[] }>();
  for (const [index, { wall, moisture }] of calibration.pairs.entries()) {
    const own = walls.get(wall) ?? { x: [], y: [] };
    own.x.push(calibration.onUnseenWalls.predicted[index] as number);
    own.y.push(moisture);
    walls.set(wall, own);
  }
  const things = [...walls.values()];
  if (things.every(({ x }) => x.length === 1))
    return limitsOfAgreement(
      things.map(({ x, y }) => (x[0] as number) - (y[0] as number)),
      { level },
    );
  return limitsOfRepeated({ kind: 'varying', things }, { level });
}
