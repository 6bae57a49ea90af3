import { movingFactor } from './moving-factor.js';
import type { Point } from './point.js';

/** The residuals' part that the parameters could still take up, and the rest. */
export interface Offset {
  /** Length of the residuals' projection on the derivatives. */
  readonly tangent: number;
  /** Tangent part over the residuals, each per degree of freedom: between 0 and the root of the degrees of freedom. */
  readonly relative: number;
}

/**
 * The relative offset (as a sine; theirs is the tangent of the same angle): how far, in parts of the confidence region's radius, a straight model would still move the estimates.
 * Bates and Watts, Technometrics 23 (1981) 179–183.
 */
export function relativeOffset(point: Point, moving: readonly number[]): Offset {
  const { rows, columns: count, entries } = movingFactor(point, moving);
  const tangent = norm(entries.subarray(count * rows, count * rows + count));
  const whole = norm(entries.subarray(count * rows));
  const relative = tangent === 0 ? 0 : (tangent * Math.sqrt(rows - count)) / (whole * Math.sqrt(count));
  return { tangent, relative };
}

function norm(values: Float64Array): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0));
}
