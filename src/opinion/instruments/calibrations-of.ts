import {
  agreementOnWalls,
  type CalibrationPair,
  calibrateByUncertainties,
  calibrateMeter,
  calibrationPairs,
  type MoistureReading,
  monotoneCalibration,
} from '../../moisture/index.js';
import type { Instrument, Trial } from '../../trial/index.js';
import { computed } from './computed.js';
import type { MaterialCalibration } from './instrument-facts.js';

/**
 * The calibrations of a meter against the trial's cores, one for each material of the walls that it read.
 *
 * @param unit of the cores
 * @example calibrationsOf(trial, readings, meter, '% by mass')[0]?.material
 */
export function calibrationsOf(
  trial: Trial,
  readings: readonly MoistureReading[],
  { instrument }: Instrument,
  unit: string,
): readonly MaterialCalibration[] {
  const { outcome, confidence: level } = trial.protocol;
  const { pairs } = calibrationPairs(trial, readings, { instrument });
  const read = new Set(readings.filter((one) => one.instrument === instrument).map(({ wall }) => wall));
  const materials = new Set(trial.walls.filter(({ wall }) => read.has(wall)).map(({ material = '' }) => material));
  // Only of the outcome's own meter does the protocol say which way is better, that is, drier.
  const falls = outcome.instrument === instrument && outcome.better === 'higher';
  return [...materials].map((material) => ({
    material,
    unit,
    outcome: computed(() => {
      const own = pairs.filter((pair) => pair.material === material);
      const options = { level, readingRises: falls ? 'against-moisture' : 'with-moisture' } as const;
      const calibration = calibrateMeter(own, options);
      return {
        calibration,
        agreement: computed(() => agreementOnWalls(calibration, level)),
        monotone: computed(() => monotoneCalibration(own, options)),
        ...(own.every(hasBoth) ? { byUncertainties: computed(() => calibrateByUncertainties(own, options)) } : {}),
      };
    }),
  }));
}

function hasBoth({ moistureUncertainty, readingUncertainty }: CalibrationPair): boolean {
  return moistureUncertainty !== undefined && readingUncertainty !== undefined;
}
