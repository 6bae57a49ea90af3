import { StatisticsError } from '../../statistics-error.js';

/** Value and derivative of a function at one point. */
export interface ValueAndSlope {
  readonly value: number;
  readonly slope: number;
}

/**
 * Root of an increasing function by Newton's method, held inside a bracket that shrinks with every sign seen.
 *
 * A step that would leave the bracket, or cannot be computed because the function overflowed, becomes a bisection, so
 * the search cannot escape. It ends after a step so small that the next, quadratically smaller, would be lost in
 * rounding.
 *
 * @param lower a point at or below the root; its value is not computed
 * @param upper a point at or above the root
 * @throws StatisticsError 'not-converged' after 200 steps
 */
export function newtonInBracket(
  evaluate: (point: number) => ValueAndSlope,
  start: number,
  lower: number,
  upper: number,
): number {
  let low = lower;
  let high = upper;
  let point = Math.min(Math.max(start, low), high);
  for (let iteration = 0; iteration < 200; iteration++) {
    const { value, slope } = evaluate(point);
    if (value === 0) return point;
    if (value > 0) high = point;
    else low = point;
    let next = point - value / slope;
    // Newton's steps can oscillate between two points for ever; halving now and then cannot.
    const isStuck = iteration > 20 && iteration % 2 === 0 && Math.abs(value / slope) > 1e-8;
    if (isStuck || !(next >= low && next <= high)) next = low + (high - low) / 2;
    const scale = Math.max(1, Math.abs(point));
    if (Math.abs(next - point) <= 1e-8 * Math.min(1, scale)) {
      if (Math.abs(value / slope) <= 1e-8 || high - low <= 1e-15 * scale) return next;
    }
    point = next;
  }
  throw new StatisticsError('newtonInBracket', 'not-converged', `needs more than 200 steps from ${start}`);
}
