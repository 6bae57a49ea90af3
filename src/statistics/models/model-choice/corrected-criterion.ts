import { checkPositive } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';

/** What the criterion needs to know of a model fitted by least squares. */
export interface FittedBySquares {
  readonly observations: number;
  /** Of the curve; the residual variance is counted besides. */
  readonly parameters: number;
  readonly residualSumOfSquares: number;
}

const WHERE = 'correctedCriterion';

/**
 * Akaike's information criterion of a least-squares fit with the correction for small samples (AICc): minus twice the
 * log-likelihood, plus 2k + 2k(k + 1) / (n − k − 1), where k counts the curve's parameters and the residual variance. The
 * smaller of two models of the same observations is the better.
 *
 * @throws StatisticsError `too-many-parameters` unless n > k + 1; `out-of-range` for a sum of squares that is not positive
 * @example correctedCriterion({ observations: 8, parameters: 3, residualSumOfSquares: 0.6 }) // 23.314
 * @source Hurvich and Tsai 1989, Biometrika 76:297–307
 */
export function correctedCriterion({ observations, parameters, residualSumOfSquares }: FittedBySquares): number {
  checkPositive(WHERE, 'sum of squares', residualSumOfSquares);
  const counted = parameters + 1;
  if (observations <= counted + 1) {
    const detail = `needs more than ${counted + 1} observations for ${parameters} parameters, got ${observations}`;
    throw new StatisticsError(WHERE, 'too-many-parameters', detail);
  }
  const deviance = observations * (Math.log((2 * Math.PI * residualSumOfSquares) / observations) + 1);
  return deviance + 2 * counted + (2 * counted * (counted + 1)) / (observations - counted - 1);
}
