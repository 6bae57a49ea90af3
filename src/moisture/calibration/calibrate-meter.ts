import { type DemingLine, deming, inverseAt, isStatisticsError } from '../../statistics/index.js';
import { MoistureError } from '../moisture-error.js';
import type { CalibrationPair } from './calibration-pairs.js';
import { errorRatioOfPairs, type RatioOfErrors } from './error-ratio-of-pairs.js';

/** What a meter's index means in moisture, for one material. */
export interface MeterCalibration {
  readonly material: string;
  /** Reading = intercept + slope × moisture; its uncertainty comes from leaving out a wall at a time. */
  readonly line: DemingLine;
  readonly ratio: RatioOfErrors;
  readonly pairs: readonly CalibrationPair[];
  readonly walls: number;
  /** Moisture of the driest and of the wettest core: outside it the calibration is a guess. */
  readonly range: { readonly from: number; readonly to: number };
  /** How wrong moisture from the meter is on walls that the line has not seen. */
  readonly onUnseenWalls: UnseenWalls;
}

export interface UnseenWalls {
  /** Root of the mean square of moisture by meter less moisture by core. */
  readonly rootMeanSquare: number;
  /** Mean of it: the meter's lean. */
  readonly bias: number;
  /** One for each pair, in the order of the pairs. */
  readonly predicted: readonly number[];
}

export interface CalibrationOptions {
  /** 0.95 unless told. */
  readonly level?: number;
  /** Variance of the meter's errors over that of the cores'; estimated from repeats unless told. */
  readonly errorRatio?: number;
  /** Whether more water shows as a higher (the default) or as a lower reading, as with a resistance in ohms. */
  readonly readingRises?: 'with-moisture' | 'against-moisture';
}

const where = 'calibrateMeter';

/**
 * Calibrates a meter against cores of one material: Deming's line of reading on moisture, both with errors, with the walls as the
 * units of its uncertainty, and the prediction error on walls left out.
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
  if (line.slope > 0 !== (readingRises === 'with-moisture')) {
    const wanted = readingRises === 'with-moisture' ? 'rises' : 'falls';
    const detail = `needs a reading that ${wanted} with moisture, got a slope of ${line.slope}; check the columns, or say that it runs the other way`;
    throw new MoistureError(where, 'reversed', detail);
  }
  const without = new Map(line.leftOut.map((each) => [each.group, each]));
  const predicted = pairs.map(({ wall, reading }) => {
    const { slope, intercept } = without.get(wall) ?? line;
    return (reading - intercept) / slope;
  });
  return {
    material: pairs[0]?.material ?? '',
    line,
    ratio,
    pairs,
    walls: line.leftOut.length,
    range: line.range,
    onUnseenWalls: unseenWalls(pairs, predicted),
  };
}

/** How far predictions on walls that were left out miss the cores. */
export function unseenWalls(pairs: readonly CalibrationPair[], predicted: readonly number[]): UnseenWalls {
  const errors = pairs.map(({ moisture }, index) => (predicted[index] as number) - moisture);
  return {
    rootMeanSquare: Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length),
    bias: errors.reduce((sum, error) => sum + error, 0) / errors.length,
    predicted,
  };
}

/** Refuses pairs that no calibration can be made of. */
export function checkCalibrationPairs(where: string, pairs: readonly CalibrationPair[]): void {
  const materials = [...new Set(pairs.map(({ material }) => material))];
  if (materials.length > 1) {
    const named = materials.map((material) => material || 'unnamed').join(', ');
    throw new MoistureError(
      where,
      'materials-differ',
      `needs cores of one material, got ${named}; calibrate each by itself`,
    );
  }
  if (pairs.length < 3)
    throw new MoistureError(where, 'too-few', `needs at least 3 pairs of core and reading, got ${pairs.length}`);
  const walls = new Set(pairs.map(({ wall }) => wall)).size;
  if (walls < 3) throw new MoistureError(where, 'too-few', `needs pairs from at least 3 walls, got ${walls}`);
  for (const [name, values] of [
    ['readings of the meter', pairs.map(({ reading }) => reading)],
    ['moistures of the cores', pairs.map(({ moisture }) => moisture)],
  ] as const) {
    if (values.every((value) => value === values[0]))
      throw new MoistureError(where, 'no-variation', `needs ${name} that differ, got ${values[0]} throughout`);
  }
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
 * @param readings how many readings of like places the value is the mean of, for the mean of as many cores; 1 unless told
 * @throws MoistureError `no-variation` where the line is too uncertain to be read backwards, `not-finite`
 * @example moistureByMeter(calibration, 52).value // 11.47
 */
export function moistureByMeter(
  calibration: MeterCalibration,
  reading: number,
  { level = 0.95, readings = 1 }: { readonly level?: number; readonly readings?: number } = {},
): MoistureByMeter {
  const { line } = calibration;
  try {
    const newReading = line.scatter / Math.sqrt(readings);
    const { estimate, interval, within } = inverseAt(line, reading, { level, newReading });
    return { value: estimate, ...interval, kind: within ? 'within-range' : 'extrapolated' };
  } catch (error) {
    if (!isStatisticsError(error)) throw error;
    const fault = error.fault === 'not-finite' ? 'not-finite' : 'no-variation';
    throw new MoistureError('moistureByMeter', fault, `needs a line that can be read backwards; ${error.message}`);
  }
}
