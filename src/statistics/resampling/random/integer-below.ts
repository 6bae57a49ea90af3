import { StatisticsError } from '../../statistics-error.js';
import type { RandomStream } from './random-stream.js';

const words = 2 ** 32;

/**
 * A random whole number from 0 up to, but not including, `bound`, all exactly equally likely: the 2^32 words are cut into
 * `bound` equal runs and the few left over are drawn again.
 *
 * @throws StatisticsError `out-of-range` unless the bound is a whole number from 1 to 2^32
 * @example
 * const stream = randomStream(20240201);
 * [integerBelow(stream, 6), integerBelow(stream, 6), integerBelow(stream, 6)] // [3, 5, 5]
 */
export function integerBelow(stream: RandomStream, bound: number): number {
  if (!(bound >= 1 && bound <= words && Number.isInteger(bound))) {
    throw new StatisticsError('integerBelow', 'out-of-range', `needs a whole number from 1 to 2^32, got ${bound}`);
  }
  // The high bits decide: the lowest bits of this generator are its weakest.
  const run = Math.floor(words / bound);
  let drawn = Math.floor((stream.next() >>> 0) / run);
  while (drawn >= bound) drawn = Math.floor((stream.next() >>> 0) / run);
  return drawn;
}
