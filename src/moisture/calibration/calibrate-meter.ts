import { type DemingLine, deming, isStatisticsError } from '../../statistics/index.js';
import { MoistureError } from '../moisture-error.js';
import { type CalibrationOfLine, calibrationOfLine, type ReadingRises } from './calibration-of-line.js';
import type { CalibrationPair } from './calibration-pairs.js';
import { checkCalibrationPairs } from './check-calibration-pairs.js';
import { errorRatioOfPairs, type RatioOfErrors } from './error-ratio-of-pairs.js';

/** What a meter's index means in moisture, for one material, by Deming's line. */
export interface MeterCalibration extends CalibrationOfLine<DemingLine> {
  readonly ratio: RatioOfErrors;
}

export interface CalibrationOptions {
  /** 0.95 unless told. */
  readonly level?: number;
  /** Variance of the meter's errors over that of the cores'; estimated from repeats unless told. */
  readonly errorRatio?: number;
  /** `with-moisture` unless told. */
  readonly readingRises?: ReadingRises;
}

const where = 'calibrateMeter';

/**
 * Calibrates a meter against cores of one material: Deming's line of reading on moisture, both with errors, with the walls as the
 * units of its uncertainty, and the prediction error on walls left out. Where the uncertainty of every single core and reading is
 * known in full there is `calibrateByUncertainties`.
 *
 * @throws MoistureError `materials-differ` for pairs of several materials; `too-few` below three pairs or three walls;
 *   `no-variation` for constant readings or cores; `reversed` where the reading runs the wrong way
 * @example calibrateMeter(pairs).line.slope // 4.792
 */
export function calibrateMeter(pairs: readonly CalibrationPair[], options: CalibrationOptions = {}): MeterCalibration {
  const { level = 0.95, readingRises = 'with-moisture' } = options;
  checkCalibrationPairs(where, pairs);
  const ratio = errorRatioOfPairs(pairs, options.errorRatio);
  const line = lineOf(pairs, ratio.errorRatio, level);
  return { ...calibrationOfLine(where, pairs, line, readingRises), ratio };
}

function lineOf(pairs: readonly CalibrationPair[], errorRatio: number, level: number): DemingLine {
  const data = { x: pairs.map(({ moisture }) => moisture), y: pairs.map(({ reading }) => reading) };
  try {
    return deming(data, { errorRatio, level, groups: pairs.map(({ wall }) => wall) });
  } catch (error) {
    if (!isStatisticsError(error)) throw error;
    throw new MoistureError(where, 'no-variation', `needs readings that vary with moisture; ${error.message}`);
  }
}
