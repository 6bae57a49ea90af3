import { checkedResult, checkFinite, checkLevel } from '../../checked-input.js';
import { studentT } from '../../distributions/student-t.js';
import type { Interval } from '../../interval.js';
import { StatisticsError } from '../../statistics-error.js';
import { fieller } from './fieller.js';

/** Two correlated estimates from the same data. */
export interface EstimatePair {
  readonly numerator: number;
  readonly denominator: number;
  readonly numeratorVariance: number;
  readonly denominatorVariance: number;
  readonly covariance: number;
  readonly degreesOfFreedom: number;
}

export interface RatioOfEstimates {
  readonly kind: 'ratio-of-estimates';
  readonly estimate: number;
  readonly degreesOfFreedom: number;
  /** Absent where the denominator cannot be distinguished from zero at this level: then no finite interval holds the ratio. */
  readonly interval?: Interval;
}

/**
 * Ratio of two normal estimates with Fieller's interval (1954, J. R. Stat. Soc. B 16:175-185): the ratios r at which numerator
 * - r denominator cannot be distinguished from zero by Student's t.
 *
 * @throws StatisticsError `out-of-range` for a denominator of zero, a negative variance, a covariance larger than the variances
 *   allow, or degrees of freedom of zero or less; `not-finite`
 * @example
 * const pair = { numerator: 1, denominator: 2, numeratorVariance: 0.1, denominatorVariance: 0.1, covariance: 0.05, degreesOfFreedom: 18 };
 * ratioOfEstimates(pair).estimate // 0.5
 */
export function ratioOfEstimates(pair: EstimatePair, options: { readonly level?: number } = {}): RatioOfEstimates {
  const where = 'ratioOfEstimates';
  const { level = 0.95 } = options;
  checkLevel(where, level);
  for (const [name, value] of Object.entries(pair)) checkFinite(where, name, value);
  const { numerator, denominator, numeratorVariance, denominatorVariance, covariance, degreesOfFreedom } = pair;
  const largest = Math.sqrt(numeratorVariance * denominatorVariance);
  // A perfect correlation may miss the bound by rounding.
  const isPossible =
    denominator !== 0 &&
    numeratorVariance >= 0 &&
    denominatorVariance >= 0 &&
    degreesOfFreedom > 0 &&
    Math.abs(covariance) <= largest * (1 + 1e-9);
  if (!isPossible) {
    const detail =
      'needs a denominator other than zero, variances that allow the covariance, and degrees of freedom above zero';
    throw new StatisticsError(where, 'out-of-range', detail);
  }
  const square = studentT(degreesOfFreedom).upperQuantile((1 - level) / 2) ** 2;
  const limits = fieller(numerator, denominator, {
    numerator: square * numeratorVariance,
    denominator: square * denominatorVariance,
    covariance: square * covariance,
  });
  return checkedResult(where, {
    kind: 'ratio-of-estimates',
    estimate: numerator / denominator,
    degreesOfFreedom,
    ...(limits && { interval: { level, ...limits } }),
  });
}
