import { movingParameters, within } from './bounds.js';
import type { Curve } from './curve.js';
import { dampedStep } from './damped-step.js';
import { columnNorm, type Point, pointAt } from './point.js';

/** A parameter's scale: the largest length that its derivatives had on the way, or the length they have. */
export type Scaling = 'largest' | 'present';

export interface Descent {
  readonly point: Point;
  readonly iterations: number;
  /** False where the limit of iterations was met first. */
  readonly settled: boolean;
}

const FIRST_DAMPING = 1e-3;
const LEAST_DAMPING = 1e-18;
const MOST_DAMPING = 1e20;
/** Below this share the fall of a sum of squares drowns in its rounding. */
const LEAST_PROMISE = 1e-10;

/**
 * Levenberg–Marquardt with geodesic acceleration: damped steps, bent as the model bends, each of which lowers the sum of
 * squares, until a straight model promises no fall worth the name or no step gives one.
 *
 * The damping follows the ratio of fall and promise: Nielsen, Damping Parameter in Marquardt's Method, Technical University of
 * Denmark report IMM-REP-1999-05 (1999). Acceleration: Transtrum and Sethna, arXiv:1201.5885 (2012).
 */
export function descend(curve: Curve, start: Point, scaling: Scaling, mostIterations: number): Descent {
  let point = start;
  let scales: Float64Array = new Float64Array(curve.names.length);
  let damping = FIRST_DAMPING;
  let growth = 2;
  for (let iterations = 0; iterations < mostIterations; iterations++) {
    const moving = movingParameters(curve, point);
    scales = scalesAt(point, scaling === 'largest' ? scales : undefined);
    const { promised } = dampedStep(point, moving, scales, LEAST_DAMPING);
    if (promised <= LEAST_PROMISE * point.sumOfSquares) return { point, iterations, settled: true };
    const tried = bentStep(curve, point, moving, scales, damping);
    if (tried === undefined) {
      damping *= growth;
      growth *= 2;
      if (damping > MOST_DAMPING) return { point, iterations, settled: true };
      continue;
    }
    const gain = (point.sumOfSquares - tried.next.sumOfSquares) / tried.promised;
    damping = Math.max(LEAST_DAMPING, damping * Math.max(1 / 3, 1 - (2 * gain - 1) ** 3));
    growth = 2;
    point = tried.next;
  }
  return { point, iterations: mostIterations, settled: false };
}

function scalesAt(point: Point, before?: Float64Array): Float64Array {
  return point.values.map((_, j) => Math.max(before?.[j] ?? 0, columnNorm(point, j)) || 1);
}

/** The bend may be at most this long, doubled and in parts of the step; a longer one says that the step goes too far. */
const MOST_BEND = 0.75;

/** Undefined where the step bends too much or does not lower the sum of squares. */
function bentStep(curve: Curve, point: Point, moving: readonly number[], scales: Float64Array, damping: number) {
  const { step, promised } = dampedStep(point, moving, scales, damping);
  const acceleration = accelerationAlong(curve, point, step);
  if (!acceleration.every(Number.isFinite)) return undefined;
  const bend = dampedStep(point, moving, scales, damping, acceleration).step;
  if (2 * scaledLength(bend, scales) > MOST_BEND * scaledLength(step, scales)) return undefined;
  const values = point.values.map((value, j) => value + step[j]! + bend[j]!);
  const next = pointAt(curve, within(curve, values), point.sumOfSquares);
  return next && { next, promised };
}

const PROBE = 0.1;

/** Half the model's second derivative along a step, its sign turned: what the bend has to make up for. */
function accelerationAlong(curve: Curve, point: Point, step: Float64Array): Float64Array {
  const rows = point.fitted.length;
  const ahead = curve.fitted(
    within(
      curve,
      point.values.map((value, j) => value + PROBE * step[j]!),
    ),
  );
  return ahead.map((value, row) => {
    const straight = step.reduce((sum, move, j) => sum + move * point.derivatives[j * rows + row]!, 0);
    return (straight - (value - point.fitted[row]!) / PROBE) / PROBE;
  });
}

function scaledLength(step: Float64Array, scales: Float64Array): number {
  return Math.sqrt(step.reduce((sum, move, j) => sum + (move * scales[j]!) ** 2, 0));
}
