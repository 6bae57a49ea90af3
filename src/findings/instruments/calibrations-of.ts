import {
  agreementOnWalls,
  type CalibrationPair,
  calibrateByUncertainties,
  calibrateMeter,
  calibrationPairs,
  concordanceOnWalls,
  fewestPairs,
  type MeterCalibration,
  type MoistureReading,
  monotoneCalibration,
  pairsOnScale,
  readingOnScale,
} from '../../moisture/index.js';
import type { Instrument, Trial } from '../../trial/index.js';
import { bandOfCalibration } from './band-of-calibration.js';
import { computed } from './computed.js';
import { directionOf } from './direction-of.js';
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
  meter: Instrument,
  unit: string,
): readonly MaterialCalibration[] {
  const { confidence: level } = trial.protocol;
  const { instrument, scale = 'linear' } = meter;
  const stated = trial.protocol.calibration;
  const tolerances = stated === undefined ? {} : { toleranceDays: stated.days, tolerance_mm: stated.distance_mm };
  const { pairs } = calibrationPairs(trial, readings, { instrument, scale, ...tolerances });
  const read = new Set(readings.filter((one) => one.instrument === instrument).map(({ wall }) => wall));
  const materials = new Set(trial.walls.filter(({ wall }) => read.has(wall)).map(({ material = '' }) => material));
  const readingRises = directionOf(trial, meter);
  const materialOf = new Map(trial.walls.map(({ wall, material = '' }) => [wall, material]));
  const readingsOn = (material: string) =>
    readings.flatMap(({ instrument: own, wall, value }) =>
      own === instrument && materialOf.get(wall) === material && value.kind === 'measured' ? [value.value] : [],
    );
  const options = { level, readingRises, scale };
  return [...materials].map((material) => {
    const own = pairs.filter((pair) => pair.material === material);
    const reasons = {
      'too-few': { code: 'too-few-pairs', pairs: own.length, walls: wallsOf(own), needed: fewestPairs },
      'no-variation': { code: 'meter-does-not-vary' },
      'out-of-range': { code: 'reading-not-above-zero' },
      reversed: { code: 'reading-runs-other-way', readingRises },
    } as const;
    const byBoth = { ...reasons, 'no-variation': { code: 'differences-do-not-vary' } } as const;
    const outcome = computed(() => {
      const calibration = calibrateMeter(own, options);
      return {
        calibration,
        plotted: pairsOnScale(calibration.pairs, scale).map(({ moisture, reading }) => ({ moisture, reading })),
        band: bandOfCalibration(calibration, level),
        ...outsideOf(readingsOn(material), calibration),
        agreement: computed(() => agreementOnWalls(calibration, level), byBoth),
        concordance: computed(() => concordanceOnWalls(calibration, level), byBoth),
        monotone: computed(() => monotoneCalibration(pairsOnScale(own, scale), options), reasons),
        ...(own.every(hasBoth)
          ? { byUncertainties: computed(() => calibrateByUncertainties(own, options), reasons) }
          : {}),
      };
    }, reasons);
    return { material, unit, outcome };
  });
}

function wallsOf(pairs: readonly CalibrationPair[]): number {
  return new Set(pairs.map(({ wall }) => wall)).size;
}

function outsideOf(values: readonly number[], { line, range, scale }: MeterCalibration) {
  const moistures = values.map((value) => (readingOnScale(value, scale) - line.intercept) / line.slope);
  const outside = moistures.filter((moisture) => moisture < range.from || moisture > range.to).length;
  return { readings: values.length, outside };
}

function hasBoth({ moistureUncertainty, readingUncertainty }: CalibrationPair): boolean {
  return moistureUncertainty !== undefined && readingUncertainty !== undefined;
}
