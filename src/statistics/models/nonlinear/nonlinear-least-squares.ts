import { checkLevel } from '../../checked-input.js';
import { studentT } from '../../distributions/student-t.js';
import type { Interval } from '../../interval.js';
import { isStatisticsError, StatisticsError, type StatisticsFault } from '../../statistics-error.js';
import { checkProblem } from './check-problem.js';
import type { Curve } from './curve.js';
import { curveOfProblem, named } from './curve-of-problem.js';
import { type Convergence, type LeastSum, leastSum } from './least-sum.js';
import type { NonlinearProblem, ParameterValues } from './nonlinear-problem.js';
import { standardErrors } from './standard-errors.js';

export interface NonlinearParameter<Name extends string> {
  readonly name: Name;
  readonly estimate: number;
  readonly standardError: number;
  /** Estimate and standard error with Student's t: right as far as the model is straight near the estimates. */
  readonly interval: Interval;
}

/** A parameter that would leave its bounds and is held there. It has no standard error; those of the others take it as known. */
export interface HeldParameter<Name extends string> {
  readonly name: Name;
  readonly bound: 'lower' | 'upper';
  readonly estimate: number;
}

/** What came of one start. */
export type StartOutcome =
  | { readonly kind: 'converged'; readonly residualSumOfSquares: number }
  | { readonly kind: 'failed'; readonly fault: StatisticsFault; readonly message: string };

/** A nonlinear model fitted by least squares. */
export interface NonlinearFit<Name extends string, X> {
  readonly problem: NonlinearProblem<Name, X>;
  readonly parameters: readonly NonlinearParameter<Name>[];
  readonly held: readonly HeldParameter<Name>[];
  /** Of all parameters, held ones included, as the model takes them. */
  readonly estimates: ParameterValues<Name>;
  readonly fitted: readonly number[];
  /** Response less fitted. */
  readonly residuals: readonly number[];
  /** Observations less parameters, held ones included. */
  readonly degreesOfFreedom: number;
  readonly residualSumOfSquares: number;
  readonly residualStandardDeviation: number;
  readonly convergence: Convergence;
  /** In the order of the starts given; the fit is the converged one of least sum of squares. */
  readonly starts: readonly StartOutcome[];
}

const WHERE = 'nonlinearLeastSquares';

/**
 * Least squares of a response on a model that need not be straight in its parameters.
 *
 * Levenberg–Marquardt with geodesic acceleration on a Householder QR of the derivatives, then undamped steps for as long as
 * they gain. A fit is returned only if it meets the relative offset criterion of Bates and Watts (Technometrics 23, 1981, 179–183)
 * at 1e-8, or if what is left is rounding. The least sum near a start need not be the least of all: give several starts.
 * Standard errors are those of the model made straight at the estimates; where it is bent, `profileInterval` is the better interval.
 *
 * @param level of the intervals, defaults to 0.95
 * @throws StatisticsError `not-converged`; `collinear` naming a parameter that changes nothing, or nothing that those before it do not;
 *   `too-many-parameters` unless there are more observations than parameters; `not-finite`; `lengths-differ`; `too-few` without a
 *   start; `out-of-range` for bounds and starts that contradict one another. Of several starts that all fail, the first one's.
 * @example
 * const drying = { x: [0, 1, 2, 4, 8], response: [10.1, 6.9, 5.1, 2.6, 0.8], start: { wet: 8, rate: 0.5 } };
 * const fit = nonlinearLeastSquares({ ...drying, model: ({ wet, rate }, day) => wet * Math.exp(-rate * day) });
 * fit.parameters.map(({ name, estimate }) => `${name} ${estimate.toFixed(3)}`) // ['wet 9.988', 'rate 0.340']
 */
export function nonlinearLeastSquares<Name extends string, X>(
  problem: NonlinearProblem<Name, X>,
  options: { readonly level?: number } = {},
): NonlinearFit<Name, X> {
  const level = options.level ?? 0.95;
  checkLevel(WHERE, level);
  const { names, starts } = checkProblem(WHERE, problem);
  const tried = starts.map((start) => attempt(curveOfProblem(problem, names, start), start, names));
  const best = tried.reduce((least, one) => (sumOf(one) < sumOf(least) ? one : least));
  if (best instanceof StatisticsError) throw best;
  return {
    problem,
    ...described(names, best, level),
    starts: tried.map(outcome),
  };
}

interface Attempt {
  readonly curve: Curve;
  readonly found: LeastSum;
  readonly errors: readonly number[];
}

function attempt<Name extends string>(
  curve: Curve,
  start: ParameterValues<Name>,
  names: readonly Name[],
): Attempt | StatisticsError {
  try {
    const found = leastSum(
      WHERE,
      curve,
      Float64Array.from(names, (name) => start[name]),
    );
    const variance = found.point.sumOfSquares / (curve.response.length - names.length);
    return { curve, found, errors: standardErrors(WHERE, found, variance) };
  } catch (error) {
    if (isStatisticsError(error)) return error;
    throw error;
  }
}

function sumOf(tried: Attempt | StatisticsError): number {
  return tried instanceof StatisticsError ? Number.POSITIVE_INFINITY : tried.found.point.sumOfSquares;
}

function outcome(tried: Attempt | StatisticsError): StartOutcome {
  if (tried instanceof StatisticsError) return { kind: 'failed', fault: tried.fault, message: tried.message };
  return { kind: 'converged', residualSumOfSquares: tried.found.point.sumOfSquares };
}

function described<Name extends string>(names: readonly Name[], { curve, found, errors }: Attempt, level: number) {
  const { point, moving, convergence } = found;
  const degreesOfFreedom = point.residuals.length - names.length;
  const reach = studentT(degreesOfFreedom).upperQuantile((1 - level) / 2);
  const parameters = moving.map((j, k): NonlinearParameter<Name> => {
    const estimate = point.values[j]!;
    const standardError = errors[k]!;
    const interval = { level, lower: estimate - reach * standardError, upper: estimate + reach * standardError };
    return { name: names[j]!, estimate, standardError, interval };
  });
  const held = names.flatMap((name, j): HeldParameter<Name>[] => {
    if (moving.includes(j)) return [];
    const estimate = point.values[j]!;
    return [{ name, bound: estimate === curve.lower[j] ? 'lower' : 'upper', estimate }];
  });
  return {
    parameters,
    held,
    estimates: named(names, point.values),
    fitted: Array.from(point.fitted),
    residuals: Array.from(point.residuals),
    degreesOfFreedom,
    residualSumOfSquares: point.sumOfSquares,
    residualStandardDeviation: Math.sqrt(point.sumOfSquares / degreesOfFreedom),
    convergence,
  };
}
