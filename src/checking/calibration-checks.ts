import { calibrationPairs, type MoistureReading } from '../moisture/index.js';
import type { Trial } from '../trial/index.js';

/** Whether a meter can be calibrated against the trial's cores, and why not. */
export interface CalibrationCheck {
  readonly instrument: string;
  /** Measured values of the meter. */
  readonly readings: number;
  /** Cores with a moisture. */
  readonly cores: number;
  readonly pairs: number;
  /** Walls with a pair. */
  readonly walls: number;
  /** Pairs there would be if any reading of the wall would do, whatever its place. */
  readonly pairsByWall: number;
  /** A pair is a core and a reading of one place at most so many days apart. */
  readonly toleranceDays: number;
}

/** A calibration needs so many pairs, from as many walls (`calibrateMeter`). */
export const fewestPairs = 3;

const toleranceDays = 3;
const meters: ReadonlySet<string> = new Set([
  'microwave',
  'resistance',
  'capacitance',
  'humidity-probe',
  'embedded-sensor',
]);

/** A check for every meter that was read, where there are cores to hold it against. */
export function calibrationChecks(trial: Trial, readings: readonly MoistureReading[]): readonly CalibrationCheck[] {
  const gravimetric = trial.protocol.instruments.find(({ kind }) => kind === 'gravimetric')?.instrument;
  const count = (instrument: string | undefined) =>
    readings.filter((one) => one.instrument === instrument && one.value.kind === 'measured').length;
  const cores = count(gravimetric);
  if (gravimetric === undefined || cores === 0) return [];
  // Whether a pair fails for its place or for its day is seen when places are forgotten.
  const byWall = readings.map((reading) => ({ ...reading, station: '' }));
  return trial.protocol.instruments
    .filter(({ instrument, kind }) => meters.has(kind) && count(instrument) > 0)
    .map(({ instrument }) => {
      const { pairs } = calibrationPairs(trial, readings, { instrument, toleranceDays });
      return {
        ...{ instrument, readings: count(instrument), cores, pairs: pairs.length, toleranceDays },
        walls: new Set(pairs.map(({ wall }) => wall)).size,
        pairsByWall: calibrationPairs(trial, byWall, { instrument, toleranceDays }).pairs.length,
      };
    });
}
