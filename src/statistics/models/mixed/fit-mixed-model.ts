import { checkedGroupings } from './check-mixed-model.js';
import { describeFit } from './describe-fit.js';
import { type DevianceProblem, devianceAlone } from './deviance.js';
import { isZeroDeviation } from './is-zero-deviation.js';
import { maximisedLikelihood } from './maximised-likelihood.js';
import type { MixedModel } from './mixed-model.js';
import type { MixedModelFit } from './mixed-model-fit.js';

/**
 * Fits a linear mixed model by restricted or plain maximum likelihood.
 *
 * The response is a sum of fixed effects, random effects that are normal with mean zero and a covariance of their own
 * for each term, and normal residuals. Use it when observations share units: visits in stations in walls. Random terms
 * may be nested or crossed. Restricted likelihood is the choice for variances and for tests of fixed effects; plain
 * likelihood for comparing models whose fixed effects differ.
 *
 * Effects and fixed coefficients are profiled out (Bates, Mächler, Bolker and Walker 2015, Journal of Statistical
 * Software 67(1)), the deviance is minimised over the relative covariance factors with exact gradients, and each trial
 * works on cross-products only, so that its cost does not depend on the number of observations. A fit on the boundary,
 * such as a variance of zero, is an answer and is named in `boundary`.
 *
 * @throws StatisticsError `too-few`, `no-variation`, `collinear`, `lengths-differ`, `not-finite`, `empty-level`,
 *   `too-many-parameters`, `out-of-range` for data that cannot be fitted, `not-converged` when no minimum was found
 * @example
 * const fit = fitMixedModel({
 *   response: [7, 5, 6, 9, 8, 10],
 *   fixed: { columns: [{ name: 'intercept', values: [1, 1, 1, 1, 1, 1] }] },
 *   random: [{ name: 'wall', groups: ['a', 'a', 'a', 'b', 'b', 'b'] }],
 *   method: 'reml',
 * });
 * fit.random[0].standardDeviations // [2.0412...]
 */
export function fitMixedModel(model: MixedModel): MixedModelFit {
  const groupings = checkedGroupings(model);
  const { ordinary, problem, scale, minimum } = maximisedLikelihood(model, groupings);
  const point = onBoundary(problem, canonical(problem, minimum.point), minimum.value);
  return describeFit(
    model,
    ordinary,
    { problem, point, groupings, scale, turn: ordinary.inverseFactor },
    minimum.evaluations,
  );
}

/** The sign of a column of a covariance factor means nothing; on the diagonal it is made positive. */
function canonical({ entries }: DevianceProblem, point: Float64Array): Float64Array {
  return point.map((value, at) => {
    const entry = entries[at];
    if (entry === undefined) return value;
    const diagonal = entries.findIndex(
      ({ term, row, column }) => term === entry.term && row === entry.column && column === entry.column,
    );
    return point[diagonal]! < 0 ? -value : value;
  });
}

/** Standard deviations that differ from zero by rounding are made zero, unless the deviance then rises by more than its own rounding. */
function onBoundary(problem: DevianceProblem, point: Float64Array, least: number): Float64Array {
  const snapped = point.map((value, at) => (isZeroDeviation(problem, point, at) ? 0 : value));
  if (snapped.every((value, at) => value === point[at])) return point;
  const trial = devianceAlone(problem, snapped);
  return trial !== undefined && trial.deviance <= least + 1e-8 ? snapped : point;
}
