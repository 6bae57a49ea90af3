import { RefusedError } from '../plain/refused-error.js';

/** Why a statistic could not be computed, so that a caller can act on the kind and not on the wording. */
export type StatisticsFault =
  | 'too-few'
  | 'no-variation'
  | 'not-finite'
  | 'lengths-differ'
  | 'out-of-range'
  | 'collinear'
  | 'empty-level'
  | 'too-many-parameters'
  | 'not-converged';

/**
 * Thrown instead of returning NaN: says which function, what it needed, what it got, and what to do.
 *
 * @example new StatisticsError('welch', 'too-few', 'needs at least 2 values in each group, got 1; add walls')
 */
export class StatisticsError extends RefusedError<StatisticsFault> {
  override readonly name = 'StatisticsError' as const;
}

/**
 * Whether a thrown value is a `StatisticsError`.
 *
 * @example isStatisticsError(new RangeError('not one of ours')) // false
 */
export function isStatisticsError(value: unknown): value is StatisticsError {
  return value instanceof StatisticsError;
}
