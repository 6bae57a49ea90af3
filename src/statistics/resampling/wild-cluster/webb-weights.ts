import { integerBelow } from '../random/integer-below.js';
import { randomStream } from '../random/random-stream.js';

/** Mean 0, variance 1, and six values rather than two: with few clusters that many more different samples (Webb 2023). */
const sixPoints = [1.5, 1, 0.5].flatMap((square) => [-Math.sqrt(square), Math.sqrt(square)]);

/** Independent draws from Webb's six points, equally likely. */
export function webbWeights(count: number, seed: number): Float64Array {
  const stream = randomStream(seed);
  return Float64Array.from({ length: count }, () => sixPoints[integerBelow(stream, 6)] as number);
}
