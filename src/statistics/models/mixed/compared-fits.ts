import { StatisticsError } from '../../statistics-error.js';
import type { MixedModelFit } from './mixed-model-fit.js';

/**
 * Twice the gain in log-likelihood of the larger of two models, and how many parameters it has more.
 *
 * @throws StatisticsError `out-of-range` unless the fits are of one response, by one method, and one larger than the
 *   other
 */
export function comparedFits(
  where: string,
  small: MixedModelFit,
  large: MixedModelFit,
): { readonly statistic: number; readonly parameters: number } {
  const refuse = (detail: string): never => {
    throw new StatisticsError(where, 'out-of-range', detail);
  };
  const [one, other] = [small.model, large.model];
  if (
    one.response.length !== other.response.length ||
    one.response.some((value, row) => value !== other.response[row])
  ) {
    refuse('needs two fits to the same response');
  }
  if (one.method !== other.method) refuse(`needs fits by one method, got "${one.method}" and "${other.method}"`);
  if (one.method === 'reml' && !sameColumns(small, large)) {
    refuse(
      'needs the same fixed columns in fits by restricted likelihood, as it depends on them; fit both with method "ml"',
    );
  }
  const parameters = large.parameters - small.parameters;
  if (parameters <= 0) {
    refuse(`needs a second fit with more parameters, got ${small.parameters} and ${large.parameters}; exchange them`);
  }
  const statistic = 2 * (large.logLikelihood - small.logLikelihood);
  // Both likelihoods are right to better than this: a smaller loss is none.
  if (statistic < -1e-6) {
    refuse(`needs nested models: the larger is less likely, by ${-statistic / 2}, so it does not contain the smaller`);
  }
  return { statistic: Math.max(0, statistic), parameters };
}

function sameColumns(small: MixedModelFit, large: MixedModelFit): boolean {
  const [one, other] = [small.model.fixed.columns, large.model.fixed.columns];
  return (
    one.length === other.length &&
    one.every(({ values }, at) => values.every((value, row) => value === other[at]!.values[row]))
  );
}
