// Random numbers from a seed.
export { integerBelow } from './integer-below.js';
export { normalDraws } from './normal-draws.js';
export { type RandomStream, randomStream } from './random-stream.js';
export { shuffled } from './shuffled.js';
export { uniform } from './uniform.js';
