import { isStatisticsError, StatisticsError } from '../../statistics-error.js';
import { fitMixedModel } from '../mixed/fit-mixed-model.js';
import type { MixedModelFit } from '../mixed/mixed-model-fit.js';
import type { NonlinearMixedModel } from './nonlinear-mixed-model.js';
import { type FixedEffect, fixedEffects, type RandomEffects, type Straightened, straightened } from './straightened.js';

/** A fitted nonlinear mixed model. */
export interface NonlinearMixedFit {
  /**
   * The linear mixed model that the curve is at its own estimates: its fixed effects are named `parameter: column`, its
   * tests, `satterthwaite` above all, are those of the nonlinear model.
   */
  readonly straight: MixedModelFit;
  readonly iterations: number;
  /** Of the curve at the estimates, effects at random included. */
  readonly residualSumOfSquares: number;
}

interface State {
  readonly values: readonly number[];
  readonly random: RandomEffects;
}

const WHERE = 'fitNonlinearMixedModel';
const MOST_ITERATIONS = 60;
/** Largest move of a fixed effect, in parts of its standard error, that still counts as none. */
const SETTLED = 1e-6;

/**
 * Fits a nonlinear mixed model by straightening the curve at the present fixed and random effects, fitting the linear mixed
 * model that results, and beginning again from its effects until they stay (Lindstrom and Bates 1990, Biometrics 46, 673–687;
 * at rest both of their alternating steps give the same effects).
 *
 * Use it for curves that units share in shape and not in size, such as walls that dry at rates of their own. The likelihood is
 * that of the straightened model: an approximation, good where each unit has several observations.
 *
 * @throws StatisticsError `too-few`, `lengths-differ`, `not-finite`; `not-converged` after 60 rounds; those of `fitMixedModel`
 * @example
 * const days = [0, 20, 40, 60, 0, 20, 40, 60, 0, 20, 40, 60];
 * const specimen = [1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3];
 * const moisture = [9.8, 6.1, 3.4, 2.2, 11.9, 8.2, 5.4, 3.9, 8.1, 4.2, 2.3, 1.0];
 * const { straight } = fitNonlinearMixedModel({
 *   model: ({ wet, logRate }, day) => wet * Math.exp(-Math.exp(logRate) * day),
 *   x: days,
 *   response: moisture,
 *   random: [{ name: 'specimen', groups: specimen, parameters: ['wet', 'logRate'] }],
 *   start: { wet: 10, logRate: -4 },
 *   method: 'reml',
 * });
 * satterthwaite(straight, { 'logRate: intercept': 1 }).interval // { level: 0.95, lower: -4.363, upper: -3.009 }
 */
export function fitNonlinearMixedModel<Name extends string, X>(model: NonlinearMixedModel<Name, X>): NonlinearMixedFit {
  checkModel(model);
  const names = Object.keys(model.start) as Name[];
  const effects = fixedEffects(model, names);
  const expand = ({ values, random }: State) => straightened(model, names, effects, values, random);
  let state: State = { values: startOf(model, effects), random: model.random.map(() => new Map()) };
  let present = expand(state);
  for (let iterations = 1; iterations <= MOST_ITERATIONS; iterations++) {
    const straight = fitStraight(model, present);
    const target = stateOf(straight);
    const moved = largestMove(straight, state, target);
    const next = partWay(expand, state, target, present);
    state = next.state;
    present = next.expanded;
    if (moved < SETTLED) {
      const { residualSumOfSquares } = present;
      return { straight, iterations, residualSumOfSquares };
    }
  }
  const detail = `needs effects that come to rest, and after ${MOST_ITERATIONS} rounds they have not; start nearer, or let fewer parameters vary at random`;
  throw new StatisticsError(WHERE, 'not-converged', detail);
}

function fitStraight<Name extends string, X>(
  { method }: NonlinearMixedModel<Name, X>,
  { response, fixed, random }: Straightened,
): MixedModelFit {
  return fitMixedModel({ response, fixed: { columns: fixed }, random, method });
}

function stateOf({ coefficients, random }: MixedModelFit): State {
  return {
    values: coefficients.map(({ estimate }) => estimate),
    random: random.map(({ modes }) => new Map(modes.map(({ level, effects }) => [level, effects]))),
  };
}

/** Of the fixed effects in standard errors, of the random ones in residual standard deviations of what they do. */
function largestMove({ coefficients, random }: MixedModelFit, from: State, to: State): number {
  const fixed = coefficients.map(({ standardError }, k) => Math.abs(to.values[k]! - from.values[k]!) / standardError);
  const between = random.flatMap(({ standardDeviations, modes }, term) =>
    modes.flatMap(({ level, effects }) =>
      effects.map((effect, k) => {
        const spread = standardDeviations[k]!;
        return spread > 0 ? Math.abs(effect - (from.random[term]?.get(level)?.[k] ?? 0)) / spread : 0;
      }),
    ),
  );
  return [...fixed, ...between].reduce((largest, one) => Math.max(largest, one), 0);
}

/** The whole step, or half of it and so on where the curve would leave the numbers or fit much worse than before. */
function partWay(expand: (state: State) => Straightened, from: State, to: State, before: Straightened) {
  for (let share = 1; share > 1e-3; share /= 2) {
    const state = share === 1 ? to : between(from, to, share);
    const expanded = attempt(() => expand(state));
    if (expanded !== undefined && expanded.residualSumOfSquares <= 4 * before.residualSumOfSquares)
      return { state, expanded };
  }
  throw new StatisticsError(WHERE, 'not-converged', 'needs a start from which a step leads on; start elsewhere');
}

function between(from: State, to: State, share: number): State {
  const mixed = (one: number, other: number) => one + share * (other - one);
  return {
    values: to.values.map((value, k) => mixed(from.values[k]!, value)),
    random: to.random.map(
      (levels, term) =>
        new Map(
          [...levels].map(([level, effects]) => [
            level,
            effects.map((effect, k) => mixed(from.random[term]?.get(level)?.[k] ?? 0, effect)),
          ]),
        ),
    ),
  };
}

function attempt(call: () => Straightened): Straightened | undefined {
  try {
    const expanded = call();
    return Number.isFinite(expanded.residualSumOfSquares) ? expanded : undefined;
  } catch (error) {
    if (isStatisticsError(error)) return undefined;
    throw error;
  }
}

function startOf<Name extends string, X>(
  { start }: NonlinearMixedModel<Name, X>,
  effects: readonly FixedEffect<Name>[],
): readonly number[] {
  const seen = new Set<Name>();
  return effects.map(({ parameter }) => {
    if (seen.has(parameter)) return 0;
    seen.add(parameter);
    return start[parameter];
  });
}

function checkModel<Name extends string, X>({ x, response, random, start }: NonlinearMixedModel<Name, X>): void {
  if (Object.keys(start).length === 0)
    throw new StatisticsError(WHERE, 'too-few', 'needs at least one parameter in the start');
  if (x.length !== response.length)
    throw new StatisticsError(
      WHERE,
      'lengths-differ',
      `needs one response for every x, got ${response.length} for ${x.length}`,
    );
  if (random.length === 0 || random.some(({ parameters }) => parameters.length === 0))
    throw new StatisticsError(
      WHERE,
      'too-few',
      'needs parameters that vary at random; without any, use nonlinearLeastSquares',
    );
  const odd = random.find(({ groups }) => groups.length !== response.length);
  if (odd === undefined) return;
  const detail = `needs the level of every observation: "${odd.name}" has ${odd.groups.length} for ${response.length}`;
  throw new StatisticsError(WHERE, 'lengths-differ', detail);
}
