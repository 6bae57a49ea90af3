import type { Curve } from './curve.js';
import { differenceQuotients } from './difference-quotient.js';
import type { NonlinearProblem, ParameterValues } from './nonlinear-problem.js';

/** Differences begin at this part of a parameter's size. */
const FIRST_STEP = 1 / 16;

/** @param start of this search: it says how large a parameter is that passes by zero */
export function curveOfProblem<Name extends string, X>(
  problem: NonlinearProblem<Name, X>,
  names: readonly Name[],
  start: ParameterValues<Name>,
): Curve {
  const { model, x, response, bounds, gradient } = problem;
  const lower = Float64Array.from(names, (name) => bounds?.[name]?.lower ?? Number.NEGATIVE_INFINITY);
  const upper = Float64Array.from(names, (name) => bounds?.[name]?.upper ?? Number.POSITIVE_INFINITY);
  const fitted = (values: Float64Array) => {
    const parameters = named(names, values);
    const fitted = new Float64Array(x.length);
    for (const [row, at] of x.entries()) fitted[row] = model(parameters, at);
    return fitted;
  };
  const given = (values: Float64Array) => {
    const parameters = named(names, values);
    const columns = new Float64Array(names.length * x.length);
    for (const [row, at] of x.entries()) {
      const slopes = gradient!(parameters, at);
      for (let j = 0; j < names.length; j++) columns[j * x.length + row] = slopes[names[j]!];
    }
    return columns;
  };
  const byDifferences = (values: Float64Array) => {
    const columns = new Float64Array(names.length * x.length);
    names.forEach((name, j) => {
      const value = values[j]!;
      const valuesAt = (move: number) => fitted(values.with(j, value + move));
      const widest = FIRST_STEP * (Math.abs(start[name]) || 1);
      const step = FIRST_STEP * Math.abs(value) || 2 ** -40 * widest;
      const reach = { step, widest, down: value - lower[j]!, up: upper[j]! - value };
      columns.set(differenceQuotients(valuesAt, reach), j * x.length);
    });
    return columns;
  };
  return {
    names,
    response: Float64Array.from(response),
    lower,
    upper,
    fitted,
    derivatives: gradient === undefined ? byDifferences : given,
  };
}

export function named<Name extends string>(names: readonly Name[], values: Float64Array): ParameterValues<Name> {
  const parameters: Partial<Record<Name, number>> = {};
  for (let j = 0; j < names.length; j++) parameters[names[j]!] = values[j]!;
  return parameters as Record<Name, number>;
}
