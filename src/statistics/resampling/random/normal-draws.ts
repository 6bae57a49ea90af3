import type { RandomStream } from './random-stream.js';
import { uniform } from './uniform.js';

/**
 * Independent draws from the standard normal distribution, by the polar method (Marsaglia and Bray 1964).
 *
 * @param count how many
 * @example normalDraws(randomStream(1), 3) // [1.665, 1.843, 1.276]
 */
export function normalDraws(stream: RandomStream, count: number): Float64Array {
  const draws = new Float64Array(count);
  for (let filled = 0; filled < count; filled += 2) {
    let across = 0;
    let along = 0;
    let radius = 0;
    do {
      across = 2 * uniform(stream) - 1;
      along = 2 * uniform(stream) - 1;
      radius = across * across + along * along;
    } while (radius >= 1 || radius === 0);
    const scale = Math.sqrt((-2 * Math.log(radius)) / radius);
    draws[filled] = across * scale;
    if (filled + 1 < count) draws[filled + 1] = along * scale;
  }
  return draws;
}
