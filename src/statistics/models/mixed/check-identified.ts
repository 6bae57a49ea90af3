import { randomStream } from '../../resampling/random/random-stream.js';
import { uniform } from '../../resampling/random/uniform.js';
import { StatisticsError } from '../../statistics-error.js';
import { grouping } from './grouping.js';
import type { MixedModel } from './mixed-model.js';
import type { ScaledTerm } from './scaled-term.js';

/** One variance or covariance: what its matrix makes of a vector, before the fixed columns are taken out again. */
interface Component {
  /** The random term; undefined for the residual. */
  readonly term?: string;
  readonly times: (vector: Float64Array) => Float64Array;
}

/** A matrix that is not zero makes nothing of a random vector with chance zero; where there are few rows, more vectors are needed. */
const probesFor = (rows: number) => Math.max(1, Math.min(4, Math.ceil(256 / rows)));
/** What remains of a product below this share of it is rounding: fixed columns are orthogonal to some 1e-10. */
const ROUNDING = 1e-8;
/** Far from where rounding begins, on the safe side: what is not so clear is looked at row by row. */
const clearlyIdentified = 1e4;

/**
 * Refuses a model whose restricted likelihood cannot tell a variance from others: that likelihood sees the data only after the fixed
 * columns were taken out, and what is left of a term's variance matrix may be nothing (its levels are distinguished by fixed columns),
 * or a combination of other terms' and the residual's. Any value would then do, and any standard error come out.
 *
 * Equations of moments that have one solution, and not a far one, say that there is no such combination. Otherwise the matrices are
 * compared by what they make of a few random vectors, so that none of them is formed.
 *
 * @param names of the terms
 * @param tail row-major, `width` numbers an observation, of which all but the last are the fixed columns made orthonormal
 * @param sensitivity of the equations of moments, see `MomentEquations`; infinite where there are none
 * @throws StatisticsError `collinear` naming the term
 */
export function checkIdentified(
  model: MixedModel,
  terms: readonly ScaledTerm[],
  names: readonly string[],
  tail: Float64Array,
  width: number,
  sensitivity: number,
): void {
  const rows = model.response.length;
  if (sensitivity < clearlyIdentified) return;
  const stream = randomStream(20240601);
  const probes = Array.from({ length: probesFor(rows) }, () =>
    withoutFixed(
      Float64Array.from({ length: rows }, () => uniform(stream) - 0.5),
      tail,
      width,
    ),
  );
  const found: Float64Array[] = [];
  for (const component of components(model, terms, names)) {
    const whole = probes.map(component.times);
    const left = joined(whole.map((vector) => withoutFixed(vector, tail, width)));
    if (component.term !== undefined && size(left) <= ROUNDING * size(joined(whole))) refuseFixed(component.term);
    const own = scaled(left, 1 / size(left));
    // Twice, so that what rounding left of the others goes too.
    for (let pass = 0; pass < 2; pass++) for (const other of found) take(own, other, inner(own, other));
    const length = size(own);
    if (component.term !== undefined && length <= ROUNDING) refuseConfounded(component.term);
    if (length > ROUNDING) found.push(scaled(own, 1 / length));
  }
}

function refuseFixed(term: string): never {
  const what = `needs random terms whose levels differ within the fixed columns: those of "${term}" are distinguished by the fixed columns alone, so that restricted likelihood cannot know their variance`;
  throw new StatisticsError(
    'fitMixedModel',
    'collinear',
    `${what}; leave out "${term}" or the fixed columns that tell its levels apart, or take more levels of it for each value of those columns`,
  );
}

function refuseConfounded(term: string): never {
  const what = `needs random terms that differ once the fixed columns are taken out: the variance of "${term}" cannot be distinguished from those of the residual and the other terms`;
  throw new StatisticsError(
    'fitMixedModel',
    'collinear',
    `${what}; leave out "${term}", or repeat readings within its levels`,
  );
}

/** The residual's first, so that a term is blamed. The matrix of an autoregression is not a fixed one, and is left out. */
function components(model: MixedModel, terms: readonly ScaledTerm[], names: readonly string[]): Component[] {
  return [...residualComponents(model), ...terms.flatMap((term, at) => termComponents(term, names[at]!))];
}

function residualComponents({ residual }: MixedModel): Component[] {
  switch (residual?.kind) {
    case undefined:
    case 'equal':
      return [{ times: (vector) => vector }];
    case 'by-group': {
      const { levels, codes } = grouping(residual.groups);
      return levels.map((_, level) => ({
        times: (vector: Float64Array) => vector.map((value, row) => (codes[row] === level ? value : 0)),
      }));
    }
    case 'autoregressive':
    case 'autoregressive-by-group':
      return [];
  }
}

/** A variance for each column and, unless the covariance is diagonal, a covariance for each two. */
function termComponents(term: ScaledTerm, name: string): Component[] {
  const columns = Array.from({ length: term.size }, (_, column) => column);
  return columns.flatMap((one) =>
    columns
      .filter((other) => other === one || (other > one && !term.diagonal))
      .map((other) => ({ term: name, times: (vector: Float64Array) => timesTerm(term, one, other, vector) })),
  );
}

/** The columns' product over the levels: a vector's sums by level in one column, spread by the other, and the other way round. */
function timesTerm(
  { grouping: { levels, codes }, size: width, values }: ScaledTerm,
  one: number,
  other: number,
  vector: Float64Array,
) {
  const [sums, facing] = [new Float64Array(levels.length), new Float64Array(levels.length)];
  for (let row = 0; row < vector.length; row++) {
    sums[codes[row]!]! += values[row * width + one]! * vector[row]!;
    facing[codes[row]!]! += values[row * width + other]! * vector[row]!;
  }
  const product = new Float64Array(vector.length);
  for (let row = 0; row < vector.length; row++) {
    const level = codes[row]!;
    product[row] = values[row * width + other]! * sums[level]! + values[row * width + one]! * facing[level]!;
  }
  return product;
}

/** What the fixed columns do not explain of a vector; where that is little, once more, for they are orthonormal only to rounding. */
function withoutFixed(vector: Float64Array, tail: Float64Array, width: number): Float64Array {
  const once = projected(vector, tail, width);
  return size(once) < 1e-3 * size(vector) ? projected(once, tail, width) : once;
}

function projected(vector: Float64Array, tail: Float64Array, width: number): Float64Array {
  const shares = new Float64Array(width - 1);
  for (let row = 0; row < vector.length; row++) {
    for (let column = 0; column < width - 1; column++) shares[column]! += tail[row * width + column]! * vector[row]!;
  }
  const left = Float64Array.from(vector);
  for (let row = 0; row < left.length; row++) {
    for (let column = 0; column < width - 1; column++) left[row]! -= tail[row * width + column]! * shares[column]!;
  }
  return left;
}

function joined(vectors: readonly Float64Array[]): Float64Array {
  const rows = vectors[0]!.length;
  const all = new Float64Array(vectors.length * rows);
  for (const [at, vector] of vectors.entries()) all.set(vector, at * rows);
  return all;
}

function scaled(vector: Float64Array, factor: number): Float64Array {
  return vector.map((value) => value * factor);
}

function take(from: Float64Array, other: Float64Array, share: number): void {
  for (let at = 0; at < from.length; at++) from[at]! -= share * other[at]!;
}

function inner(one: Float64Array, other: Float64Array): number {
  let sum = 0;
  for (let at = 0; at < one.length; at++) sum += one[at]! * other[at]!;
  return sum;
}

function size(vector: Float64Array): number {
  return Math.sqrt(inner(vector, vector));
}
