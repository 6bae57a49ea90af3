import { inverseAt, isStatisticsError } from '../../statistics/index.js';
import { MoistureError } from '../moisture-error.js';
import type { CalibrationLine, CalibrationOfLine } from './calibration-of-line.js';
import { readingOnScale } from './reading-scale.js';

/** Moisture from a reading of a calibrated meter. */
export interface MoistureByMeter {
  readonly value: number;
  readonly level: number;
  readonly lower: number;
  readonly upper: number;
  /** `extrapolated`: drier or wetter than any core of the calibration, so that the interval is not to be trusted. */
  readonly kind: 'within-range' | 'extrapolated';
}

/**
 * Moisture that a reading stands for, with the interval in which a core beside it would lie: uncertainty of the line and scatter
 * about it (Fieller). The scatter holds the errors of single cores as well, so for the true moisture the interval is too wide
 * rather than too narrow.
 *
 * @param readings how many readings of like places the value is the mean of, for the mean of as many cores; 1 unless told (on a logarithmic scale
 *   the geometric mean)
 * @throws MoistureError `out-of-range` for a reading that is not above zero on a logarithmic scale, `no-variation` where the line is too uncertain to be read backwards, `not-finite`
 * @example moistureByMeter(calibration, 52).value // 11.47
 */
export function moistureByMeter(
  calibration: Pick<CalibrationOfLine<CalibrationLine>, 'line' | 'scale'>,
  reading: number,
  { level = 0.95, readings = 1 }: { readonly level?: number; readonly readings?: number } = {},
): MoistureByMeter {
  const { line, scale } = calibration;
  const onScale = readingOnScale(reading, scale);
  try {
    const newReading = line.scatter / Math.sqrt(readings);
    const { estimate, interval, within } = inverseAt(line, onScale, { level, newReading });
    return { value: estimate, ...interval, kind: within ? 'within-range' : 'extrapolated' };
  } catch (error) {
    if (!isStatisticsError(error)) throw error;
    const fault = error.fault === 'not-finite' ? 'not-finite' : 'no-variation';
    throw new MoistureError('moistureByMeter', fault, `needs a line that can be read backwards; ${error.message}`);
  }
}
