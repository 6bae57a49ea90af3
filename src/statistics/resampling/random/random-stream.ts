import { xoroshiro128plusFromState } from 'pure-rand/generator/xoroshiro128plus';
import { StatisticsError } from '../../statistics-error.js';

/** A source of random 32-bit words that remembers where it is. Drawing from it moves it on. */
export interface RandomStream {
  /** The next word, as a whole number from -2^31 to 2^31 - 1. */
  next(): number;
}

/**
 * A stream of random numbers that depends on the seed and the index only. Streams of one seed never overlap:
 * each index is one jump of 2^64 draws further along the same sequence.
 *
 * The generator is xoroshiro128+ (Blackman and Vigna 2021). The seed is scrambled first, because neighbouring seeds
 * would otherwise begin with neighbouring numbers.
 *
 * @param seed any safe integer
 * @param index which of the seed's streams, from 0
 * @throws StatisticsError `out-of-range` when either is not a whole number, or the index is negative
 * @example uniform(randomStream(20240201)) // 0.6188813588154018
 */
export function randomStream(seed: number, index = 0): RandomStream {
  if (!Number.isSafeInteger(seed)) {
    throw new StatisticsError('randomStream', 'out-of-range', `needs a whole number as seed, got ${seed}`);
  }
  if (!Number.isSafeInteger(index) || index < 0) {
    throw new StatisticsError('randomStream', 'out-of-range', `needs a stream index of 0 or more, got ${index}`);
  }
  return streamsOf(seed)(index);
}

/**
 * The streams of a seed by their index, as `randomStream` gives them. Asked for in rising order, each costs the jumps from the
 * one before it and not from the first, which would add up to the square of their number.
 */
export function streamsOf(seed: number): (index: number) => RandomStream {
  let reached = 0;
  let ahead = xoroshiro128plusFromState(stateFrom(seed));
  return (index) => {
    if (index < reached) [reached, ahead] = [0, xoroshiro128plusFromState(stateFrom(seed))];
    for (; reached < index; reached++) ahead.jump();
    return ahead.clone();
  };
}

/** Four well-mixed words from the two halves of the seed. */
function stateFrom(seed: number): number[] {
  const low = seed | 0;
  const high = Math.floor(seed / 2 ** 32) | 0;
  const mixed = mix(low ^ mix(high));
  return [1, 2, 3, 4].map((step) => mix((mixed + Math.imul(step, 0x9e3779b9)) | 0));
}

/** The 32-bit finaliser of MurmurHash3 (Appleby, public domain): a bijection in which each bit reaches every other. */
function mix(word: number): number {
  let mixed = word ^ (word >>> 16);
  mixed = Math.imul(mixed, 0x85ebca6b);
  mixed ^= mixed >>> 13;
  mixed = Math.imul(mixed, 0xc2b2ae35);
  return mixed ^ (mixed >>> 16);
}
