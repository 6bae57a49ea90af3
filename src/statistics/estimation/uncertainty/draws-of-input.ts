import { normalDraws } from '../../resampling/random/normal-draws.js';
import type { RandomStream } from '../../resampling/random/random-stream.js';
import { uniform } from '../../resampling/random/uniform.js';
import { StatisticsError } from '../../statistics-error.js';
import type { InputDistribution, InputQuantity } from './input-quantity.js';

/**
 * Independent draws of an input from its distribution.
 *
 * @throws StatisticsError `out-of-range` for `student-t` without degrees of freedom
 * @source JCGM 101:2008, table 1 (from memory)
 */
export function drawsOfInput(stream: RandomStream, input: InputQuantity, count: number): Float64Array {
  const { value, standardUncertainty } = input;
  if (input.distribution === 'normal')
    return normalDraws(stream, count).map((draw) => value + standardUncertainty * draw);
  const draw = standardDraw(input.distribution, input);
  return new Float64Array(count).map(() => value + standardUncertainty * draw(stream));
}

/** A draw in units of the standard uncertainty. */
function standardDraw(
  distribution: Exclude<InputDistribution, 'normal'>,
  input: InputQuantity,
): (stream: RandomStream) => number {
  switch (distribution) {
    case 'rectangular':
      return (stream) => Math.sqrt(3) * (2 * uniform(stream) - 1);
    case 'triangular':
      return (stream) => Math.sqrt(6) * (uniform(stream) + uniform(stream) - 1);
    case 'arcsine':
      return (stream) => Math.SQRT2 * Math.cos(2 * Math.PI * uniform(stream));
    case 'student-t':
      return studentDraw(input);
  }
}

/** The polar method of Bailey (1994) for Student's t with any degrees of freedom, whole or not. */
function studentDraw({ name, degreesOfFreedom }: InputQuantity): (stream: RandomStream) => number {
  if (degreesOfFreedom === undefined || !(degreesOfFreedom > 0 && Number.isFinite(degreesOfFreedom)))
    throw new StatisticsError(
      'monteCarloUncertainty',
      'out-of-range',
      `needs finite degrees of freedom above 0 for ${name}, which is student-t, got ${degreesOfFreedom}`,
    );
  return (stream) => {
    let across = 0;
    let radius = 0;
    do {
      across = 2 * uniform(stream) - 1;
      radius = across ** 2 + (2 * uniform(stream) - 1) ** 2;
    } while (radius >= 1 || radius === 0);
    return across * Math.sqrt((degreesOfFreedom * (radius ** (-2 / degreesOfFreedom) - 1)) / radius);
  };
}
