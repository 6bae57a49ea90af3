import { RefusedError } from '../plain/refused-error.js';

/** Why a plan allows no answer, so that a caller can act on the kind and not on the wording. */
export type PlanningFault = 'out-of-range' | 'too-few' | 'not-possible';

/**
 * Thrown instead of a number that would mean nothing: says which function, what it needed, and what it got.
 *
 * @example new PlanningError('verdictChances', 'out-of-range', 'needs a margin above 0, got 0')
 */
export class PlanningError extends RefusedError<PlanningFault> {
  override readonly name = 'PlanningError' as const;
}

/**
 * Whether a thrown value is a `PlanningError`.
 *
 * @example isPlanningError(new RangeError('not one of ours')) // false
 */
export function isPlanningError(value: unknown): value is PlanningError {
  return value instanceof PlanningError;
}
