import { RefusedError } from '../plain/refused-error.js';

/** Why a moisture quantity could not be computed, so that a caller can act on the kind and not on the wording. */
export type MoistureFault =
  | 'not-finite'
  | 'out-of-range'
  | 'too-few'
  | 'out-of-order'
  | 'bases-differ'
  | 'humidity-differs'
  | 'no-variation'
  | 'reversed'
  | 'materials-differ'
  | 'no-front'
  | 'unstated'
  | 'unknown-name';

/**
 * Thrown instead of a number that would mean nothing: says which function, what it needed, what it got, what to do.
 *
 * @example new MoistureError('dewPoint', 'out-of-range', 'needs a relative humidity above 0 %, got 0 %')
 */
export class MoistureError extends RefusedError<MoistureFault> {
  override readonly name = 'MoistureError' as const;
}

/**
 * Whether a thrown value is a `MoistureError`.
 *
 * @example isMoistureError(new RangeError('not one of ours')) // false
 */
export function isMoistureError(value: unknown): value is MoistureError {
  return value instanceof MoistureError;
}
