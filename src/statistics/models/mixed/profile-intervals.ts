import { checkLevel } from '../../checked-input.js';
import { chiSquare } from '../../distributions/chi-square.js';
import type { Interval } from '../../interval.js';
import { newtonInBracket } from '../../numerics/root-finding/newton-in-bracket.js';
import { StatisticsError } from '../../statistics-error.js';
import type { MixedModelFit } from './mixed-model-fit.js';
import { type ProfileComponent, profileComponents } from './profile-component.js';
import { profileDeviance } from './profile-deviance.js';
import { residualDeviation } from './residual-deviation.js';

/** A component of the covariance with its interval. */
export interface ComponentInterval {
  readonly kind: 'standard-deviation' | 'correlation';
  /** Name of the random term, or `residual`. */
  readonly term: string;
  /** The columns of the term, or the group of residuals, that the component belongs to. */
  readonly of: readonly string[];
  readonly estimate: number;
  readonly interval: Interval;
}

/**
 * Profile likelihood intervals of the standard deviations and, for terms of two columns, of the correlation; and of the
 * residual's standard deviations and autocorrelation.
 *
 * An interval holds the values at which the least deviance exceeds that of the fit by no more than the chi-square
 * quantile with one degree of freedom. Under restricted likelihood the restricted deviance is profiled. A lower limit
 * is 0, or a limit of a correlation -1 or 1, where even that is not excluded. A correlation with a column that does not
 * vary has the interval from -1 to 1.
 *
 * @param options.level defaults to 0.95
 * @throws StatisticsError `out-of-range` for a level outside 0 to 1; `not-converged` when a profile cannot be followed
 * @example profileIntervals(mixedFit)[0].interval // { level: 0.95, lower: 0, upper: 1.069 }
 */
export function profileIntervals(fit: MixedModelFit, options: { readonly level?: number } = {}): ComponentInterval[] {
  const level = options.level ?? 0.95;
  checkLevel('profileIntervals', level);
  const rise = chiSquare(1).quantile(level);
  return profileComponents(fit).map((component) => {
    const { kind, term, of, estimate } = component;
    const limits =
      kind === 'correlation' ? correlationLimits(fit, component, rise) : deviationLimits(fit, component, rise);
    return { kind, term, of, estimate, interval: { level, ...limits } };
  });
}

interface Limits {
  readonly lower: number;
  readonly upper: number;
}

/** The search starts at the fit; where there is no variance, at a tenth of the residual's standard deviation. */
function deviationLimits(fit: MixedModelFit, component: ProfileComponent, rise: number): Limits {
  const { estimate, term } = component;
  const middle = Math.log(estimate > 0 ? estimate : 0.1 * residualDeviation(fit.residual));
  const upper = Math.exp(limit(fit, component, { rise, middle, side: 1 }) ?? fail(component));
  const open = !(estimate > 0) || (term !== 'residual' && !excludesZero(fit, component, rise));
  return { lower: open ? 0 : Math.exp(limit(fit, component, { rise, middle, side: -1 }) ?? fail(component)), upper };
}

function correlationLimits(fit: MixedModelFit, component: ProfileComponent, rise: number): Limits {
  const { estimate, term } = component;
  const varies = fit.random.every(({ name, standardDeviations }) => name !== term || !standardDeviations.includes(0));
  const middle = Math.max(-mostUnknown, Math.min(mostUnknown, Math.atanh(estimate)));
  const side = (sign: 1 | -1) => {
    const found = varies ? limit(fit, component, { rise, middle, side: sign }) : undefined;
    return found === undefined ? sign : Math.tanh(found);
  };
  return { lower: side(-1), upper: side(1) };
}

function excludesZero(fit: MixedModelFit, component: ProfileComponent, rise: number): boolean {
  const { deviance } = profileDeviance(fit.workings.problem, component, Number.NEGATIVE_INFINITY, component.start);
  return deviance + 2 * fit.logLikelihood >= rise;
}

/** A correlation of 1 but for two in a million is as good as 1. */
const mostUnknown = Math.atanh(1 - 2e-6);
const mostSteps = 60;

/**
 * Where the least deviance has risen far enough, to the right or to the left of the middle: by steps until it has, then
 * by Newton's method on its square root, which is nearly straight. Each minimisation starts where the one before ended.
 * Undefined where it never rises so far.
 */
function limit(
  fit: MixedModelFit,
  component: ProfileComponent,
  { rise, middle, side }: { readonly rise: number; readonly middle: number; readonly side: 1 | -1 },
): number | undefined {
  let { start } = component;
  const excess = (unknown: number) => {
    const { deviance, free, slope } = profileDeviance(fit.workings.problem, component, unknown, start);
    start = free;
    const root = Math.sqrt(Math.max(0, deviance + 2 * fit.logLikelihood));
    return { value: side * (root - Math.sqrt(rise)), slope: root > 0 ? (side * slope) / (2 * root) : 0 };
  };
  let inner = middle;
  for (let step = 0; step < mostSteps; step++) {
    const outer = inner + side * 0.25 * 1.2 ** step;
    if (component.kind === 'correlation' && Math.abs(outer) > mostUnknown) return undefined;
    if (side * excess(outer).value >= 0) {
      return newtonInBracket(excess, outer, Math.min(inner, outer), Math.max(inner, outer));
    }
    inner = outer;
  }
  return undefined;
}

function fail({ kind, term, of }: ProfileComponent): never {
  const detail = `finds no limit for the ${[kind, 'of', term, ...of].join(' ')}; leave that component out of the model`;
  throw new StatisticsError('profileIntervals', 'not-converged', detail);
}
