import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

const steps = 1_000_000;

/**
 * Chance from a seed. Only additions and multiplications are used, so that every machine draws the same numbers to the
 * last bit: a normal value is the sum of twelve uniform ones less six (mean 0, standard deviation 1, never beyond 6).
 */
export function randomSource(seed) {
  const generator = xoroshiro128plus(seed);
  const uniform = () => uniformInt(generator, 0, steps - 1) / steps;
  const normal = (standardDeviation) => {
    let sum = -6;
    for (let draw = 0; draw < 12; draw += 1) sum += uniform();
    return sum * standardDeviation;
  };
  return {
    normal,
    between: (from, to) => from + (to - from) * uniform(),
    pick: (choices) => choices[uniformInt(generator, 0, choices.length - 1)],
    coin: () => uniformInt(generator, 0, 1) === 1,
  };
}
