import { movingParameters, within } from './bounds.js';
import type { Curve } from './curve.js';
import { dampedStep } from './damped-step.js';
import { columnNorm, type Point, pointAt } from './point.js';
import { relativeOffset } from './relative-offset.js';

const MOST_STEPS = 500;
const MOST_HALVINGS = 6;
/** A step counts if the offset falls to this part. */
const WORTHWHILE = 0.9;
/** No further: the eleventh digit of what a standard error can tell. */
const ENOUGH = 1e-11;

/**
 * Undamped steps, halved where need be, for as long as the part of the residuals that the parameters could still take up
 * falls. It tells points apart that the sum of squares, being level at its least, cannot.
 */
export function polish(curve: Curve, start: Point): { readonly point: Point; readonly iterations: number } {
  let point = start;
  for (let iterations = 0; iterations < MOST_STEPS; iterations++) {
    const next = polished(curve, point);
    if (next === undefined) return { point, iterations };
    point = next;
  }
  return { point, iterations: MOST_STEPS };
}

function polished(curve: Curve, point: Point): Point | undefined {
  const moving = movingParameters(curve, point);
  const { tangent, relative } = relativeOffset(point, moving);
  if (relative <= ENOUGH) return undefined;
  const scales = point.values.map((_, j) => columnNorm(point, j) || 1);
  const { step } = dampedStep(point, moving, scales, 0);
  // The sum itself may rise by its own rounding, no further.
  const limit = point.sumOfSquares * (1 + 1e-6) + roundingLength(curve, point) ** 2;
  for (let halvings = 0; halvings <= MOST_HALVINGS; halvings++) {
    const values = point.values.map((value, j) => value + step[j]! / 2 ** halvings);
    const next = pointAt(curve, within(curve, values), limit);
    if (next === undefined) continue;
    const left = relativeOffset(next, movingParameters(curve, next));
    if (left.tangent < WORTHWHILE * tangent) return next;
  }
  return undefined;
}

/** Length that residuals may have from rounding of the response and the model alone, some sixty roundings in each. */
export function roundingLength({ response }: Curve, { fitted }: Point): number {
  const squares = response.reduce((sum, value, row) => sum + (Math.abs(value) + Math.abs(fitted[row]!)) ** 2, 0);
  return 64 * Number.EPSILON * Math.sqrt(squares);
}
