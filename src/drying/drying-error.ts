import { RefusedError } from '../plain/refused-error.js';

/** Why a quantity of drying could not be computed, so that a caller can act on the kind and not on the wording. */
export type DryingFault = 'too-few' | 'not-finite' | 'out-of-range' | 'out-of-order' | 'lengths-differ' | 'not-drying';

/**
 * Thrown instead of a number that would mean nothing: says which function, what it needed, what it got, what to do.
 *
 * @example new DryingError('dryingIndex', 'too-few', 'needs at least 2 readings, got 1')
 */
export class DryingError extends RefusedError<DryingFault> {
  override readonly name = 'DryingError' as const;
}

/**
 * Whether a thrown value is a `DryingError`.
 *
 * @example isDryingError(new RangeError('not one of ours')) // false
 */
export function isDryingError(value: unknown): value is DryingError {
  return value instanceof DryingError;
}
