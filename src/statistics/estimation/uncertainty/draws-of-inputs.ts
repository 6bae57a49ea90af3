import { normalDraws } from '../../resampling/random/normal-draws.js';
import { randomStream } from '../../resampling/random/random-stream.js';
import { StatisticsError } from '../../statistics-error.js';
import { correlationMatrix } from './correlation-matrix.js';
import { correlationRoot } from './correlation-root.js';
import { drawsOfInput } from './draws-of-input.js';
import type { InputCorrelation, InputQuantity } from './input-quantity.js';

const where = 'monteCarloUncertainty';

/**
 * Draws of all inputs, an array for each. Every input has a stream of its own, so that adding one leaves the others'
 * draws as they were. Correlated inputs are drawn from a joint normal distribution.
 *
 * @throws StatisticsError `out-of-range` where a correlated input is not normal: a correlation does not say how other
 *   shapes go together
 * @source JCGM 101:2008, 6.4.8 and C.5 (from memory)
 */
export function drawsOfInputs(
  seed: number,
  inputs: readonly InputQuantity[],
  count: number,
  correlations: readonly InputCorrelation[],
): readonly Float64Array[] {
  const tied = new Set(correlations.flatMap(({ between }) => between));
  const joint = inputs.filter((input) => tied.has(input.name));
  const shaped = joint.find((input) => input.distribution !== 'normal');
  if (shaped !== undefined)
    throw new StatisticsError(
      where,
      'out-of-range',
      `needs correlated inputs to be normal, and ${shaped.name} is ${shaped.distribution}; put what they share into the model as an input of its own`,
    );
  const names = inputs.map((input) => input.name);
  const root = correlationRoot(where, correlationMatrix(where, names, correlations));
  const standard = inputs.map((input, index) =>
    tied.has(input.name) ? normalDraws(randomStream(seed, index), count) : undefined,
  );
  return inputs.map((input, index) =>
    standard[index] === undefined
      ? drawsOfInput(randomStream(seed, index), input, count)
      : mixed(input, root[index] as Float64Array, standard, count),
  );
}

/** The input's row of the triangle, applied to the standard normal draws of the inputs that it is tied to. */
function mixed(
  input: InputQuantity,
  row: Float64Array,
  standard: readonly (Float64Array | undefined)[],
  count: number,
): Float64Array {
  const draws = new Float64Array(count).fill(input.value);
  for (const [index, source] of standard.entries()) {
    const weight = input.standardUncertainty * (row[index] as number);
    if (source === undefined || weight === 0) continue;
    for (let trial = 0; trial < count; trial++)
      draws[trial] = (draws[trial] as number) + weight * (source[trial] as number);
  }
  return draws;
}
