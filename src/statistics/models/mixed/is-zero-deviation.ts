import type { DevianceProblem } from './deviance.js';

/**
 * Scaled columns have mean square 1, so a diagonal entry of the factor is a standard deviation beside the residual's. Below this
 * share of it no data tell it from zero: the deviance changes with its square, some 1e-10 for every unit of curvature.
 */
const zeroBelow = 1e-5;

/** Whether an entry of the parameters is a standard deviation of zero. */
export function isZeroDeviation({ entries }: DevianceProblem, point: Float64Array, at: number): boolean {
  const entry = entries[at];
  return entry !== undefined && entry.row === entry.column && point[at]! < zeroBelow;
}
