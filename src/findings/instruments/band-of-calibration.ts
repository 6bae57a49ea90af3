import type { MeterCalibration } from '../../moisture/index.js';
import { predictedAt } from '../../statistics/index.js';

/** The line at one moisture, with the limits of the line and of a single reading. */
export interface BandPoint {
  readonly moisture: number;
  readonly line: number;
  readonly lower: number;
  readonly upper: number;
  readonly singleLower: number;
  readonly singleUpper: number;
}

/** Steps across the range of a calibration, enough that the band looks like a curve. */
const bandSteps = 24;

/** The calibration's line across its range, in even steps. */
export function bandOfCalibration({ line, range }: MeterCalibration, level: number): readonly BandPoint[] {
  return Array.from({ length: bandSteps + 1 }, (_, step) => {
    const moisture = range.from + ((range.to - range.from) * step) / bandSteps;
    const own = predictedAt(line, moisture, { level });
    const single = predictedAt(line, moisture, { level, newReading: line.scatter });
    return {
      moisture,
      line: own.estimate,
      lower: own.interval.lower,
      upper: own.interval.upper,
      singleLower: single.interval.lower,
      singleUpper: single.interval.upper,
    };
  });
}
