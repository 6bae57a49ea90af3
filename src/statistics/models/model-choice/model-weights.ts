import { checkSample } from '../../checked-input.js';

/** How one of several models of the same observations stands. */
export interface ModelWeight {
  /** Criterion less the least of all. */
  readonly difference: number;
  /** Share of the evidence among these models; the shares sum to 1. */
  readonly weight: number;
}

/**
 * Weights of models from their information criteria: exp(−difference / 2), scaled to sum to 1.
 *
 * @param criteria one for each model, all of the same observations
 * @throws StatisticsError `too-few` for none, `not-finite`
 * @example modelWeights([10, 12]).map(({ weight }) => weight.toFixed(3)) // ['0.731', '0.269']
 * @source Burnham and Anderson 2002, Model Selection and Multimodel Inference, 2nd ed., section 2.9
 */
export function modelWeights(criteria: readonly number[]): readonly ModelWeight[] {
  checkSample('modelWeights', 'criteria', criteria, 1);
  const least = criteria.reduce((one, other) => Math.min(one, other));
  const parts = criteria.map((criterion) => Math.exp((least - criterion) / 2));
  const whole = parts.reduce((sum, part) => sum + part, 0);
  return criteria.map((criterion, k) => ({ difference: criterion - least, weight: parts[k]! / whole }));
}
