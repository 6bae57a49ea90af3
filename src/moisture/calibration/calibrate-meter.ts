import { type DemingLine, deming, isStatisticsError } from '../../statistics/index.js';
import type { ReadingScale } from '../../trial/index.js';
import { MoistureError } from '../moisture-error.js';
import { type CalibrationOfLine, calibrationOfLine, type ReadingRises } from './calibration-of-line.js';
import type { CalibrationPair } from './calibration-pairs.js';
import { checkCalibrationPairs } from './check-calibration-pairs.js';
import { errorRatioOfPairs, type RatioOfErrors } from './error-ratio-of-pairs.js';
import { pairsOnScale } from './reading-scale.js';

/** What a meter's index means in moisture, for one material, by Deming's line. */
export interface MeterCalibration extends CalibrationOfLine<DemingLine> {
  readonly ratio: RatioOfErrors;
}

export interface CalibrationOptions {
  /** 0.95 unless told. */
  readonly level?: number;
  /** Variance of the meter's errors over that of the cores', on the scale of the line; estimated from repeats unless told. */
  readonly errorRatio?: number;
  /** `with-moisture` unless told. */
  readonly readingRises?: ReadingRises;
  /** `linear` unless told; on the logarithmic one the base-10 logarithm of the reading is what runs straight with moisture. */
  readonly scale?: ReadingScale;
}

const where = 'calibrateMeter';

/**
 * Calibrates a meter against cores of one material: Deming's line of reading on moisture, both with errors, with the walls as the
 * units of its uncertainty, and the prediction error on walls left out. Where the uncertainty of every single core and reading is
 * known in full there is `calibrateByUncertainties`.
 *
 * @throws MoistureError `materials-differ` for pairs of several materials; `too-few` below three pairs or three walls;
 *   `no-variation` for constant readings or cores; `reversed` where the reading runs the wrong way;
 *   `out-of-range` for a reading that is not above zero on a logarithmic scale
 * @example calibrateMeter(pairs).line.slope // 4.792
 */
export function calibrateMeter(pairs: readonly CalibrationPair[], options: CalibrationOptions = {}): MeterCalibration {
  const { level = 0.95, readingRises = 'with-moisture', scale = 'linear' } = options;
  checkCalibrationPairs(where, pairs);
  const onScale = pairsOnScale(pairs, scale);
  const ratio = errorRatioOfPairs(onScale, options.errorRatio);
  const line = lineOf(onScale, ratio.errorRatio, level);
  return { ...calibrationOfLine(where, pairs, line, { readingRises, scale }), ratio };
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
