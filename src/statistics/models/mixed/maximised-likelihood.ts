import { StatisticsError } from '../../statistics-error.js';
import { type LeastSquaresFit, leastSquares } from '../linear/least-squares.js';
import { type DevianceProblem, deviance, roundingOfDeviance } from './deviance.js';
import { devianceProblem } from './deviance-problem.js';
import type { Grouping } from './grouping.js';
import { type Minimum, minimise } from './minimise.js';
import type { MixedModel } from './mixed-model.js';

/** The least deviance of a model, on the way to a fit. */
export interface MaximisedLikelihood {
  readonly ordinary: LeastSquaresFit;
  readonly problem: DevianceProblem;
  /** What the response was divided by. */
  readonly scale: number;
  readonly minimum: Minimum;
}

/** Maximises the likelihood of a model that was checked. */
export function maximisedLikelihood(model: MixedModel, groupings: readonly Grouping[]): MaximisedLikelihood {
  const ordinary = leastSquares(model.fixed, model.response);
  const scale = residualScale(ordinary.residualVariance, model.response);
  const problem = devianceProblem(model, groupings, ordinary, scale);
  const minimum = minimise((point) => valueAndGradient(problem, point), problem.start);
  checkRepeatsVary(problem, minimum);
  if (!minimum.converged) {
    throw new StatisticsError(
      'fitMixedModel',
      'not-converged',
      `needs a likelihood with a maximum, but found none after ${minimum.evaluations} evaluations; leave out a random term or a residual parameter`,
    );
  }
  return { ordinary, problem, scale, minimum };
}

/** Beyond this fewer than some four digits of a standard error would be left. */
const mostCancelled = 1e11;

/** Refuses data whose repeats agree: the residual's variance is then nothing beside the others', and all ratios without a limit. */
function checkRepeatsVary(problem: DevianceProblem, { rounding }: Minimum): void {
  if (rounding < roundingOfDeviance(problem, mostCancelled)) return;
  const detail =
    'needs repeats that vary: within the levels of the random terms readings agree to a hundred thousandth of what the levels differ by, so that there is no residual to measure by; check for copied readings, or analyse one value for each level';
  throw new StatisticsError('fitMixedModel', 'no-variation', detail);
}

/** Size of the least-squares residuals, or a refusal where they are rounding errors. */
function residualScale(variance: number, response: readonly number[]): number {
  const largest = response.reduce((size, value) => Math.max(size, Math.abs(value)), 0);
  const scale = Math.sqrt(variance);
  if (scale > 64 * Number.EPSILON * largest) return scale;
  const detail =
    'needs a response that varies: the fixed effects alone fit every observation exactly; check for copied or constant values';
  throw new StatisticsError('fitMixedModel', 'no-variation', detail);
}

function valueAndGradient(problem: DevianceProblem, point: Float64Array) {
  const trial = deviance(problem, point);
  if (trial === undefined || !Number.isFinite(trial.deviance)) return undefined;
  return { value: trial.deviance, gradient: trial.gradient, rounding: trial.rounding };
}
