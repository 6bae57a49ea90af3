import { StatisticsError } from '../../statistics-error.js';
import type { DesignColumn } from '../linear/design-matrix.js';
import type { RandomTerm } from '../mixed/mixed-model.js';
import type { ParameterValues } from '../nonlinear/nonlinear-problem.js';
import type { NonlinearMixedModel } from './nonlinear-mixed-model.js';

/** One fixed effect: a column of the design of one parameter. */
export interface FixedEffect<Name extends string> {
  readonly parameter: Name;
  /** `parameter: column`. */
  readonly name: string;
  readonly values: readonly number[];
}

/** The effects of one random term, by level and then by parameter. */
export type RandomEffects = readonly ReadonlyMap<string, readonly number[]>[];

/** The model made straight at the present effects, as the linear mixed model sees it. */
export interface Straightened {
  readonly response: readonly number[];
  readonly fixed: readonly DesignColumn[];
  readonly random: readonly RandomTerm[];
  /** Of the curve itself, at the present effects. */
  readonly residualSumOfSquares: number;
}

const WHERE = 'fitNonlinearMixedModel';

export function fixedEffects<Name extends string, X>(
  { fixed, x }: NonlinearMixedModel<Name, X>,
  names: readonly Name[],
): readonly FixedEffect<Name>[] {
  return names.flatMap((parameter) => {
    const columns = fixed?.[parameter]?.columns ?? [{ name: 'intercept', values: x.map(() => 1) }];
    return columns.map(({ name, values }) => ({ parameter, name: `${parameter}: ${name}`, values }));
  });
}

/**
 * The first-order expansion of the curve about the present effects: the response becomes residual plus derivative times
 * effects, the columns become the derivatives.
 */
export function straightened<Name extends string, X>(
  model: NonlinearMixedModel<Name, X>,
  names: readonly Name[],
  effects: readonly FixedEffect<Name>[],
  values: readonly number[],
  random: RandomEffects,
): Straightened {
  const rows = model.response.length;
  const parameters = parametersByRow(model, names, effects, values, random);
  const slopes = names.map((name) => slopesBy(model, name, parameters));
  const slopeOf = (name: Name) => slopes[names.indexOf(name)]!;
  const fitted = Float64Array.from({ length: rows }, (_, row) => model.model(parameters[row]!, model.x[row]!));
  const residuals = fitted.map((value, row) => model.response[row]! - value);
  const response = Array.from(residuals);
  const columns = effects.map(({ parameter, name, values: design }, k) => {
    const own = slopeOf(parameter);
    const column = Array.from({ length: rows }, (_, row) => own[row]! * design[row]!);
    for (let row = 0; row < rows; row++) response[row]! += column[row]! * values[k]!;
    return { name, values: column };
  });
  const terms = model.random.map(({ name, groups, parameters: varying, covariance }, term): RandomTerm => {
    const varied = varying.map((parameter) => ({ name: parameter, values: Array.from(slopeOf(parameter)) }));
    groups.forEach((level, row) => {
      const own = random[term]?.get(String(level));
      if (own === undefined) return;
      varied.forEach(({ values: slope }, k) => {
        response[row]! += slope[row]! * own[k]!;
      });
    });
    return { name, groups, columns: varied, covariance: covariance ?? 'diagonal' };
  });
  const residualSumOfSquares = residuals.reduce((sum, one) => sum + one * one, 0);
  return { response, fixed: columns, random: terms, residualSumOfSquares };
}

function parametersByRow<Name extends string, X>(
  model: NonlinearMixedModel<Name, X>,
  names: readonly Name[],
  effects: readonly FixedEffect<Name>[],
  values: readonly number[],
  random: RandomEffects,
): Record<Name, number>[] {
  const byRow = model.x.map(() => Object.fromEntries(names.map((name) => [name, 0])) as Record<Name, number>);
  effects.forEach(({ parameter, values: column }, k) => {
    byRow.forEach((own, row) => {
      own[parameter] += values[k]! * column[row]!;
    });
  });
  model.random.forEach(({ groups, parameters }, term) => {
    groups.forEach((level, row) => {
      const own = random[term]?.get(String(level));
      if (own !== undefined) for (const [k, parameter] of parameters.entries()) byRow[row]![parameter] += own[k]!;
    });
  });
  return byRow;
}

/** Central differences with a step of the cube root of the rounding, relative to the parameter. */
function slopesBy<Name extends string, X>(
  { model, x }: NonlinearMixedModel<Name, X>,
  name: Name,
  parameters: readonly Record<Name, number>[],
): Float64Array {
  return Float64Array.from(x, (at, row) => {
    const own = parameters[row]!;
    const centre = own[name];
    const step = 6e-6 * Math.max(Math.abs(centre), 1e-3);
    own[name] = centre + step;
    const above = model(own as ParameterValues<Name>, at);
    own[name] = centre - step;
    const below = model(own as ParameterValues<Name>, at);
    own[name] = centre;
    const slope = (above - below) / (2 * step);
    if (Number.isFinite(slope)) return slope;
    const detail = `needs a curve that is finite on the way: at observation ${row + 1}, "${name}" = ${centre.toPrecision(4)} it is not; start elsewhere or write the parameter as a logarithm`;
    throw new StatisticsError(WHERE, 'not-finite', detail);
  });
}
