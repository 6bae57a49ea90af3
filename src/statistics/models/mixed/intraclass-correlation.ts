import { StatisticsError } from '../../statistics-error.js';
import { isNested } from './grouping.js';
import type { MixedModelFit } from './mixed-model-fit.js';

/** How alike two observations are that share a level of a random term. */
export interface IntraclassCorrelation {
  readonly term: string;
  readonly correlation: number;
}

/**
 * Intraclass correlations of a model with random intercepts: for each term, the share of the total variance that two
 * observations of the same level have in common. They share that level and those in which it lies, so the variances of
 * these terms are added up.
 *
 * @throws StatisticsError `out-of-range` where a term has slopes, as the share then depends on the covariate, or where
 *   residual variances differ
 * @example intraclassCorrelation(mixedFit) // [{ term: 'unit', correlation: 0.2987 }]
 */
export function intraclassCorrelation(fit: MixedModelFit): IntraclassCorrelation[] {
  const { random, residual } = fit;
  const sloped = fit.model.random.find(({ columns }) =>
    columns?.some(({ values }) => values.some((value) => value !== 1)),
  );
  if (sloped !== undefined) {
    const detail = `needs random intercepts alone: term "${sloped.name}" has a column that is not one throughout, so the share depends on it`;
    throw new StatisticsError('intraclassCorrelation', 'out-of-range', detail);
  }
  if ('groups' in residual) {
    const detail = 'needs one residual variance: with several, the share differs by group; fit with equal residuals';
    throw new StatisticsError('intraclassCorrelation', 'out-of-range', detail);
  }
  const variances = random.map(({ covariance }) => covariance[0]![0]!);
  const total = variances.reduce((sum, variance) => sum + variance, residual.standardDeviation ** 2);
  const { groupings } = fit.workings;
  return random.map(({ name }, at) => {
    const shared = variances.filter((_, other) => other === at || isNested(groupings[at]!, groupings[other]!));
    return { term: name, correlation: shared.reduce((sum, variance) => sum + variance, 0) / total };
  });
}
