import { StatisticsError } from '../../statistics-error.js';
import type { NonlinearProblem, ParameterValues } from './nonlinear-problem.js';

export interface CheckedStarts<Name extends string> {
  readonly names: readonly Name[];
  readonly starts: readonly ParameterValues<Name>[];
}

/** Refuses what cannot be fitted; gives the names in the order of the first start. */
export function checkProblem<Name extends string, X>(
  where: string,
  { x, response, start, bounds }: NonlinearProblem<Name, X>,
): CheckedStarts<Name> {
  const starts = isSeveral(start) ? start : [start];
  const [first] = starts;
  if (first === undefined) throw new StatisticsError(where, 'too-few', 'needs at least one start');
  const names = Object.keys(first) as Name[];
  if (names.length === 0) throw new StatisticsError(where, 'too-few', 'needs at least one parameter in the start');
  if (x.length !== response.length) {
    const detail = `needs one response for every x, got ${response.length} for ${x.length}`;
    throw new StatisticsError(where, 'lengths-differ', detail);
  }
  const row = response.findIndex((value) => !Number.isFinite(value));
  if (row >= 0) {
    const detail = `needs finite responses, got ${response[row]} at observation ${row + 1}; leave that observation out`;
    throw new StatisticsError(where, 'not-finite', detail);
  }
  if (names.length >= response.length) {
    const detail = `needs more observations than parameters: ${response.length} observations for ${names.length} parameters leave no degrees of freedom; use a smaller model or add observations`;
    throw new StatisticsError(where, 'too-many-parameters', detail);
  }
  checkBounds(where, names, bounds);
  for (const one of starts) checkStart(where, names, one, bounds);
  return { names, starts };
}

function isSeveral<Values>(start: Values | readonly Values[]): start is readonly Values[] {
  return Array.isArray(start);
}

type Bounds<Name extends string> = NonlinearProblem<Name, never>['bounds'];

function checkBounds<Name extends string>(where: string, names: readonly Name[], bounds: Bounds<Name>): void {
  for (const name of Object.keys(bounds ?? {})) {
    if (!names.includes(name as Name)) {
      throw new StatisticsError(
        where,
        'out-of-range',
        `needs bounds of parameters that the start names, got "${name}"`,
      );
    }
  }
  for (const name of names) {
    const { lower = Number.NEGATIVE_INFINITY, upper = Number.POSITIVE_INFINITY } = bounds?.[name] ?? {};
    if (!(lower < upper)) {
      const detail = `needs a lower bound below the upper for "${name}", got ${lower} and ${upper}; write a known value into the model`;
      throw new StatisticsError(where, 'out-of-range', detail);
    }
  }
}

function checkStart<Name extends string>(
  where: string,
  names: readonly Name[],
  start: ParameterValues<Name>,
  bounds: Bounds<Name>,
): void {
  const given = Object.keys(start);
  if (given.length !== names.length || !names.every((name) => given.includes(name))) {
    const detail = `needs the same parameters in every start, got ${given.join(', ')} beside ${names.join(', ')}`;
    throw new StatisticsError(where, 'out-of-range', detail);
  }
  for (const name of names) {
    const value = start[name];
    if (!Number.isFinite(value)) {
      throw new StatisticsError(where, 'not-finite', `needs a finite start of "${name}", got ${value}`);
    }
    const { lower = Number.NEGATIVE_INFINITY, upper = Number.POSITIVE_INFINITY } = bounds?.[name] ?? {};
    if (value < lower || value > upper) {
      const detail = `needs a start within the bounds: "${name}" starts at ${value}, outside ${lower} to ${upper}`;
      throw new StatisticsError(where, 'out-of-range', detail);
    }
  }
}
