import type { RandomStream } from './random-stream.js';

/**
 * A random number from 0 up to, but not including, 1: a multiple of 2^-53, all equally likely.
 *
 * @example uniform(randomStream(20240201)) // 0.6189
 */
export function uniform(stream: RandomStream): number {
  const high = stream.next() >>> 5;
  const low = stream.next() >>> 6;
  return (high * 2 ** 26 + low) * 2 ** -53;
}
