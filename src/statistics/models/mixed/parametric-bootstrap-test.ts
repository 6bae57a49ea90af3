import { randomStream } from '../../resampling/random/random-stream.js';
import { StatisticsError } from '../../statistics-error.js';
import { comparedFits } from './compared-fits.js';
import { maximisedLikelihood } from './maximised-likelihood.js';
import type { MixedModelFit } from './mixed-model-fit.js';
import { simulateResponse } from './simulate-response.js';

export interface ParametricBootstrapOptions {
  /** Any safe integer. The same seed gives the same answer. */
  readonly seed: number;
  /** Simulated responses; defaults to 999. */
  readonly replicates?: number;
}

export interface ParametricBootstrapTest {
  /** Twice the gain in log-likelihood of the larger model. */
  readonly statistic: number;
  /** One more than the simulated statistics at least as large, over one more than the replicates. */
  readonly pValue: number;
  /** Standard error of the p-value that is due to the number of replicates. */
  readonly monteCarloError: number;
  readonly replicates: number;
  readonly seed: number;
}

/**
 * Tests a model against a larger one that contains it by simulating from the smaller: for few units, and for variances, where
 * the chi-square distribution of the likelihood ratio does not hold (Halekoh and Højsgaard 2014, Journal of Statistical
 * Software 59(9)). It is not exact either, because it simulates from variances that were estimated.
 *
 * Both models are fitted to each simulated response, so that the time is some 2 * replicates fits.
 *
 * @throws StatisticsError as `likelihoodRatioTest`; `out-of-range` unless there is at least one replicate
 * @example
 * const withArm = fitMixedModel({ response, fixed: designMatrix(terms), random, method: 'ml' });
 * const withoutArm = fitMixedModel({ response, fixed: { columns: designMatrix(terms).columns.slice(0, 1) }, random, method: 'ml' });
 * parametricBootstrapTest(withoutArm, withArm, { seed: 20240201, replicates: 99 }).pValue // 0.02
 */
export function parametricBootstrapTest(
  small: MixedModelFit,
  large: MixedModelFit,
  options: ParametricBootstrapOptions,
): ParametricBootstrapTest {
  const where = 'parametricBootstrapTest';
  const { seed, replicates = 999 } = options;
  if (!(Number.isSafeInteger(replicates) && replicates >= 1)) {
    throw new StatisticsError(
      where,
      'out-of-range',
      `needs a whole number of replicates, at least 1, got ${replicates}`,
    );
  }
  const { statistic } = comparedFits(where, small, large);
  const stream = randomStream(seed);
  let reached = 0;
  for (let replicate = 0; replicate < replicates; replicate++) {
    const response = simulateResponse(small, stream);
    const gain = logLikelihood(large, response) - logLikelihood(small, response);
    // Equal but for the precision to which the likelihoods are maximised, as at the edge where both gain nothing.
    if (2 * gain >= statistic - 1e-9) reached += 1;
  }
  const pValue = (reached + 1) / (replicates + 1);
  return { statistic, pValue, monteCarloError: Math.sqrt((pValue * (1 - pValue)) / replicates), replicates, seed };
}

function logLikelihood({ model, workings: { groupings } }: MixedModelFit, response: readonly number[]): number {
  return -maximisedLikelihood({ ...model, response }, groupings).minimum.value / 2;
}
