import { StatisticsError } from '../../statistics-error.js';
import { type DevianceProblem, deviance, divisor } from './deviance.js';
import { minimise } from './minimise.js';
import type { ProfileComponent } from './profile-component.js';

/** The least deviance with one component held at a value, where it was found, and how it changes with the value. */
export interface ProfilePoint {
  readonly deviance: number;
  readonly free: Float64Array;
  /** By the unknown that stands for the component's value. */
  readonly slope: number;
}

const width = 1e-5;

/**
 * Minimises the deviance over all else. The slope needs no second minimisation: at the least, the others' derivatives
 * are zero.
 */
export function profileDeviance(
  problem: DevianceProblem,
  component: ProfileComponent,
  unknown: number,
  start: Float64Array,
): ProfilePoint {
  const value = component.value(unknown);
  const minimum = minimise((free) => held(problem, component, value, free), start);
  if (!minimum.converged) {
    const name = [component.kind, 'of', component.term, ...component.of].join(' ');
    throw new StatisticsError(
      'profileIntervals',
      'not-converged',
      `found no least deviance with the ${name} at ${value}`,
    );
  }
  const { place } = component;
  const gradient = fullGradient(problem, place(minimum.point, value).parameters)!.gradient;
  const beyond = place(minimum.point, component.value(unknown + width)).parameters;
  const before = place(minimum.point, component.value(unknown - width)).parameters;
  const slope = gradient.reduce((sum, part, at) => sum + (part * (beyond[at]! - before[at]!)) / (2 * width), 0);
  return { deviance: minimum.value, free: minimum.point, slope };
}

/** Deviance and gradient by the free parameters: the placing is cheap, so its derivatives are taken by differences. */
function held(problem: DevianceProblem, { place }: ProfileComponent, value: number, free: Float64Array) {
  const { parameters, drift } = place(free, value);
  const here = fullGradient(problem, parameters);
  if (here === undefined) return undefined;
  const gradient = free.map((own, at) => {
    const reach = width * Math.max(1e-2, Math.abs(own));
    const beyond = place(moved(free, at, reach), value);
    const before = place(moved(free, at, -reach), value);
    const change = (2 * drift * (beyond.drift - before.drift)) / (2 * reach);
    return here.gradient.reduce(
      (sum, part, k) => sum + (part * (beyond.parameters[k]! - before.parameters[k]!)) / (2 * reach),
      change,
    );
  });
  return { value: here.value + drift * drift, gradient, rounding: here.rounding };
}

function moved(values: Float64Array, at: number, reach: number): Float64Array {
  const copy = Float64Array.from(values);
  copy[at]! += reach;
  return copy;
}

/** Deviance and gradient by all parameters and the logarithm of the residual standard deviation. */
function fullGradient(problem: DevianceProblem, parameters: Float64Array) {
  const last = parameters.length - 1;
  const variance = Math.exp(2 * parameters[last]!);
  const trial = deviance(problem, parameters.subarray(0, last), variance);
  if (trial === undefined || !Number.isFinite(trial.deviance)) return undefined;
  const gradient = new Float64Array(parameters.length);
  gradient.set(trial.gradient);
  gradient[last] = 2 * (divisor(problem) - trial.squares / variance);
  return { value: trial.deviance, gradient, rounding: trial.rounding };
}
