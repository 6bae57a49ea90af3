import type { CalibrationPair } from './calibration-pairs.js';

/** How wrong moisture from a meter is on walls that its calibration has not seen. */
export interface UnseenWalls {
  /** Root of the mean square of moisture by meter less moisture by core. */
  readonly rootMeanSquare: number;
  /** Mean of it: the meter's lean. */
  readonly bias: number;
  /** One for each pair, in the order of the pairs. */
  readonly predicted: readonly number[];
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
