import { checkLevel } from '../../checked-input.js';
import { studentT } from '../../distributions/student-t.js';
import type { Interval } from '../../interval.js';
import { newtonInBracket } from '../../numerics/root-finding/newton-in-bracket.js';
import { isStatisticsError, StatisticsError } from '../../statistics-error.js';
import { curveOfProblem } from './curve-of-problem.js';
import { heldCurve, withValue } from './held-curve.js';
import { leastSum } from './least-sum.js';
import type { NonlinearFit } from './nonlinear-least-squares.js';

const WHERE = 'profileInterval';

/**
 * Interval of one parameter from the sum of squares itself: the values at which the least sum over all other parameters exceeds
 * that of the fit by no more than the residual variance times the square of Student's t.
 *
 * Unlike the interval of the standard error it need not be symmetric, and it does not change when the parameter is expressed
 * otherwise, as its logarithm for example. A limit is the parameter's bound where even that is not excluded.
 * Bates and Watts, Nonlinear Regression Analysis and Its Applications (1988), section 6.1.
 *
 * @param level defaults to 0.95
 * @throws StatisticsError `not-converged` where the data do not limit the parameter to that side, where the other parameters
 *   cannot be fitted on the way, or where the profile meets a lower sum than the fit's; `out-of-range` for a parameter that the
 *   fit holds at a bound, or does not know; `no-variation` where the fit leaves no residuals
 * @example
 * const drying = { x: [0, 1, 2, 4, 8], response: [10.1, 6.9, 5.1, 2.6, 0.8], start: { wet: 8, rate: 0.5 } };
 * const fit = nonlinearLeastSquares({ ...drying, model: ({ wet, rate }, day) => wet * Math.exp(-rate * day) });
 * profileInterval(fit, 'rate') // { level: 0.95, lower: 0.3033, upper: 0.3796 }
 */
export function profileInterval<Name extends string, X>(
  fit: NonlinearFit<Name, X>,
  name: Name,
  options: { readonly level?: number } = {},
): Interval {
  const level = options.level ?? 0.95;
  checkLevel(WHERE, level);
  if (!(fit.residualStandardDeviation > 0)) {
    throw new StatisticsError(WHERE, 'no-variation', 'needs residuals that are not all zero');
  }
  const reach = studentT(fit.degreesOfFreedom).upperQuantile((1 - level) / 2);
  return { level, lower: limit(fit, name, -1, reach), upper: limit(fit, name, 1, reach) };
}

const GROWTH = 1.5;
const MOST_STEPS = 60;

/**
 * Outward in growing steps of the standard error until the profile has risen far enough, then Newton's method on its root.
 * A step to where the other parameters cannot be fitted is halved.
 */
function limit<Name extends string, X>(fit: NonlinearFit<Name, X>, name: Name, side: 1 | -1, reach: number): number {
  const { estimate, standardError } = freeParameter(fit, name);
  const { lower = Number.NEGATIVE_INFINITY, upper = Number.POSITIVE_INFINITY } = fit.problem.bounds?.[name] ?? {};
  const bound = side > 0 ? upper : lower;
  const atBound = (bound - estimate) / standardError;
  const rise = profile(fit, name);
  const excess = (steps: number) => {
    const risen = rise(steps === atBound ? bound : estimate + steps * standardError);
    if (risen instanceof StatisticsError) return risen;
    return { value: side * (risen.root - reach), slope: side * risen.slope * standardError };
  };
  let inner = 0;
  let stride = side * reach;
  let failure: StatisticsError | undefined;
  for (let step = 0; step < MOST_STEPS; step++) {
    const outer = side > 0 ? Math.min(inner + stride, atBound) : Math.max(inner + stride, atBound);
    const found = excess(outer);
    if (found instanceof StatisticsError) {
      failure = found;
      stride /= 2;
      continue;
    }
    if (side * found.value >= 0) {
      const [low, high] = [Math.min(inner, outer), Math.max(inner, outer)];
      return estimate + newtonInBracket((steps) => orThrow(excess(steps)), outer, low, high) * standardError;
    }
    if (outer === atBound) return bound;
    inner = outer;
    stride *= GROWTH;
  }
  throw withoutLimit(name, side, estimate + inner * standardError, failure);
}

function orFailure<Value>(call: () => Value): Value | StatisticsError {
  try {
    return call();
  } catch (error) {
    if (isStatisticsError(error)) return error;
    throw error;
  }
}

function orThrow<Value>(answer: Value | StatisticsError): Value {
  if (answer instanceof StatisticsError) throw answer;
  return answer;
}

function withoutLimit(name: string, side: 1 | -1, reached: number, failure?: StatisticsError): StatisticsError {
  const direction = side > 0 ? 'above' : 'below';
  const further = failure === undefined ? '' : `, and further on it ${failure.message}`;
  const detail = `needs data that limit "${name}" from ${direction}: at ${reached.toPrecision(4)} the sum of squares has not risen enough${further}; set a bound or use a lower level`;
  return new StatisticsError(WHERE, 'not-converged', detail);
}

function freeParameter<Name extends string, X>(fit: NonlinearFit<Name, X>, name: Name) {
  const found = fit.parameters.find((parameter) => parameter.name === name);
  if (found !== undefined) return found;
  const known = fit.parameters.map((parameter) => parameter.name).join(', ');
  throw new StatisticsError(
    WHERE,
    'out-of-range',
    `needs a parameter that the fit leaves free, ${known}; got "${name}"`,
  );
}

/**
 * Rise of the least sum over the other parameters: its root, in residual standard deviations, and that root's slope. Or why they
 * could not be fitted.
 */
function profile<Name extends string, X>(fit: NonlinearFit<Name, X>, name: Name) {
  const names = Object.keys(fit.estimates) as Name[];
  const index = names.indexOf(name);
  const curve = curveOfProblem(fit.problem, names, fit.estimates);
  const rows = fit.residuals.length;
  let others: Float64Array = Float64Array.from(
    names.filter((other) => other !== name),
    (other) => fit.estimates[other],
  );
  return (value: number) => {
    const found = orFailure(() => leastSum(WHERE, heldCurve(curve, index, value), others));
    if (found instanceof StatisticsError) return found;
    const { point } = found;
    others = point.values;
    const rise = point.sumOfSquares - fit.residualSumOfSquares;
    // A fall beyond rounding: the fit was not the best one.
    if (rise < -1e-9 * fit.residualSumOfSquares) throw lowerSum(name, value);
    const root = Math.sqrt(Math.max(0, rise)) / fit.residualStandardDeviation;
    // The other parameters are at their best, so that the sum changes with this one alone.
    const column = curve.derivatives(withValue(others, index, value)).subarray(index * rows, (index + 1) * rows);
    const downhill = column.reduce((sum, slope, row) => sum + slope * point.residuals[row]!, 0);
    const slope = root > 0 ? -downhill / (root * fit.residualStandardDeviation ** 2) : 0;
    return { root, slope };
  };
}

function lowerSum(name: string, value: number): StatisticsError {
  const detail = `needs the fit of least sum: with "${name}" = ${value.toPrecision(4)} there is a lower one; fit again from there`;
  return new StatisticsError(WHERE, 'not-converged', detail);
}
