import { StatisticsError } from '../../statistics-error.js';
import { movingParameters } from './bounds.js';
import { checkIdentified } from './check-identified.js';
import type { Curve } from './curve.js';
import { type Descent, descend } from './descend.js';
import { type Point, pointAt } from './point.js';
import { polish, roundingLength } from './polish.js';
import { relativeOffset } from './relative-offset.js';

/** How a search ended, and that it did not end early. */
export interface Convergence {
  readonly iterations: number;
  /**
   * `relative-offset`: what a straight model would still move the estimates by is at most 1e-8 of the radius of their
   * confidence region. `rounding`: it is more, because the residuals are next to nothing, but is rounding of the model.
   */
  readonly reason: 'relative-offset' | 'rounding';
  readonly relativeOffset: number;
}

export interface LeastSum {
  readonly point: Point;
  /** Indices of the parameters that no bound holds. */
  readonly moving: readonly number[];
  readonly convergence: Convergence;
}

const MOST_OFFSET = 1e-8;
const FIRST_ITERATIONS = 500;
const FURTHER_ITERATIONS = 3000;

/**
 * Parameters at which the sum of squares is least, near a start.
 *
 * @throws StatisticsError `not-finite` where the model is not finite at the start; `collinear` where parameters cannot be distinguished; `not-converged`
 */
export function leastSum(where: string, curve: Curve, start: Float64Array): LeastSum {
  const first = pointAt(curve, start);
  if (first === undefined) throw notFinite(where, curve, start);
  const { descent, before } = descentFrom(curve, first);
  const { point, iterations } = polish(curve, descent.point);
  const moving = movingParameters(curve, point);
  checkIdentified(where, curve, point, moving);
  const offset = relativeOffset(point, moving);
  const small = offset.relative <= MOST_OFFSET;
  if (!small && !(offset.tangent <= roundingLength(curve, point)))
    throw notConverged(where, curve, point, offset.relative);
  return {
    point,
    moving,
    convergence: {
      iterations: before + descent.iterations + iterations,
      reason: small ? 'relative-offset' : 'rounding',
      relativeOffset: offset.relative,
    },
  };
}

/** Where scales that only grow hold a long way up, it is gone again with scales that follow. */
function descentFrom(curve: Curve, first: Point): { readonly descent: Descent; readonly before: number } {
  const descent = descend(curve, first, 'largest', FIRST_ITERATIONS);
  if (descent.settled) return { descent, before: 0 };
  const second = descend(curve, first, 'present', FURTHER_ITERATIONS);
  const better = second.point.sumOfSquares < descent.point.sumOfSquares ? second : descent;
  const before = descent.iterations + second.iterations - better.iterations;
  return { descent: better, before };
}

function notFinite(where: string, curve: Curve, start: Float64Array): StatisticsError {
  const fitted = curve.fitted(start);
  const row = fitted.findIndex((value) => !Number.isFinite(value));
  const what =
    row >= 0 ? `the model gives ${fitted[row]} at observation ${row + 1}` : 'its squares or derivatives overflow';
  const detail = `needs a start at which the model is finite and smooth: at ${listed(curve, start)} ${what}; start elsewhere`;
  return new StatisticsError(where, 'not-finite', detail);
}

function notConverged(where: string, curve: Curve, point: Point, offset: number): StatisticsError {
  const at = `stopped at ${listed(curve, point.values)} with a relative offset of ${offset.toPrecision(2)}`;
  const detail = `needs to come within ${MOST_OFFSET} of the estimates, ${at}; start nearer, set bounds, or use a model with fewer parameters`;
  return new StatisticsError(where, 'not-converged', detail);
}

function listed({ names }: Curve, values: Float64Array): string {
  return names.map((name, j) => `${name} = ${values[j]!.toPrecision(4)}`).join(', ');
}
