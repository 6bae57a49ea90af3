import { isStatisticsError, type YorkLineByGroups, yorkByGroups } from '../../statistics/index.js';
import { MoistureError } from '../moisture-error.js';
import type { CalibrationOptions } from './calibrate-meter.js';
import { type CalibrationOfLine, calibrationOfLine } from './calibration-of-line.js';
import type { CalibrationPair } from './calibration-pairs.js';
import { checkCalibrationPairs } from './check-calibration-pairs.js';
import { pairsOnScale } from './reading-scale.js';

/** What a meter's index means in moisture, for one material, by York's line. */
export interface CalibrationByUncertainties extends CalibrationOfLine<YorkLineByGroups> {
  /**
   * How many times as far as their stated uncertainties allow the pairs lie from the line, √(χ²/(n − 2)). Near 1 the uncertainties
   * tell all; well above, something is missing from them, and the line gives the wrong pairs too much weight.
   */
  readonly beyondStated: number;
}

const where = 'calibrateByUncertainties';

/**
 * Calibrates a meter against cores of one material where every core and every reading has a standard uncertainty of its own: York's
 * line, which lets each pair count by both, with the walls as the units of its uncertainty.
 *
 * It needs uncertainties that hold everything that parts a core from the reading beside it, the place drilled above all. The
 * balance's share alone makes the cores look exact: `beyondStated` is then well above 1, and `calibrateMeter`, which learns
 * the errors from repeated visits, is the better choice.
 *
 * @throws MoistureError `unstated` where a pair lacks an uncertainty, else as `calibrateMeter`
 * @example
 * const withBoth = pairs.map((pair) => ({ ...pair, moistureUncertainty: 0.7, readingUncertainty: 3 }));
 * calibrateByUncertainties(withBoth).beyondStated // 1.154
 * @source York's line: see `york`; the ratio is the square root of the reduced chi-square
 */
export function calibrateByUncertainties(
  pairs: readonly CalibrationPair[],
  options: Omit<CalibrationOptions, 'errorRatio'> = {},
): CalibrationByUncertainties {
  const { level = 0.95, readingRises = 'with-moisture', scale = 'linear' } = options;
  checkCalibrationPairs(where, pairs);
  const line = lineOf(pairsOnScale(pairs, scale), level);
  const { chiSquare, degreesOfFreedom } = line.fit;
  return {
    ...calibrationOfLine(where, pairs, line, { readingRises, scale }),
    beyondStated: Math.sqrt(chiSquare / degreesOfFreedom),
  };
}

function lineOf(pairs: readonly CalibrationPair[], level: number): YorkLineByGroups {
  const data = {
    x: pairs.map(({ moisture }) => moisture),
    y: pairs.map(({ reading }) => reading),
    uncertaintyX: pairs.map((pair) => stated(pair, 'moistureUncertainty', 'core')),
    uncertaintyY: pairs.map((pair) => stated(pair, 'readingUncertainty', 'reading')),
  };
  try {
    return yorkByGroups(
      data,
      pairs.map(({ wall }) => wall),
      { level },
    );
  } catch (error) {
    if (!isStatisticsError(error)) throw error;
    const fault = error.fault === 'out-of-range' ? 'out-of-range' : 'no-variation';
    throw new MoistureError(where, fault, `needs readings that vary with moisture; ${error.message}`);
  }
}

function stated(pair: CalibrationPair, name: 'moistureUncertainty' | 'readingUncertainty', what: string): number {
  const value = pair[name];
  if (value !== undefined) return value;
  const at = `${pair.wall}${pair.station === '' ? '' : `, ${pair.station}`}, ${pair.day}`;
  throw new MoistureError(where, 'unstated', `needs a standard uncertainty of every ${what}, got none at ${at}`);
}
