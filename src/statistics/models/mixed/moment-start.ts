import { inverse } from '../../numerics/matrix/square-matrix.js';
import type { BlockLayout } from './block-layout.js';
import { blockStride, tailAt } from './cross-products.js';
import type { DevianceProblem } from './deviance.js';
import { eachBlock } from './each-block.js';

/** What the search may begin with: at zero itself the slope says nothing, and far out hardly more. */
const [leastDeviation, mostDeviation] = [0.1, 100];

/**
 * Relative standard deviations of the terms' columns by the method of moments: sums of squares of the least-squares residuals by level
 * are set equal to their expectations, which are linear in the variances (Searle, Casella and McCulloch, Variance Components, 1992,
 * chapter 5). In balanced nested data these are the estimates of restricted likelihood where none is negative. Columns of one term count
 * as uncorrelated.
 *
 * @param products of residuals with equal variances
 * @returns one for each column of each term; undefined where the sums of squares leave the residual no variance
 */
export function momentStart(problem: DevianceProblem, products: Float64Array): readonly number[] | undefined {
  const { layout, terms, fixedEffects, observations } = problem;
  const effects = effectProducts(problem, products);
  const kinds = terms.reduce((sum, { size }) => sum + size, 0);
  const size = kinds + 1;
  const [observed, expected] = [new Float64Array(size), new Float64Array(size * size)];
  addOwn(effects, fixedEffects, size, observed, expected);
  addMeetings(layout, products, effects, fixedEffects, size, expected);
  const corner = layout.denseStart + layout.denseSize ** 2 - 1;
  observed[kinds] = products[corner]!;
  expected[size * size - 1] = observations - fixedEffects;
  const variances = productWith(inverse(expected, size), observed, size);
  const residual = variances[kinds]!;
  if (!(residual > 0) || !variances.every(Number.isFinite)) return undefined;
  return variances
    .slice(0, kinds)
    .map((variance) => Math.min(mostDeviation, Math.max(leastDeviation, Math.sqrt(Math.max(0, variance) / residual))));
}

/** Of every random effect: which column of which term it belongs to, and the products of its column. */
interface EffectProducts {
  /** Counted over all terms. */
  readonly kind: Int32Array;
  /** With itself. */
  readonly square: Float64Array;
  /** With the fixed columns, row-major. */
  readonly fixed: Float64Array;
  /** With the response. */
  readonly response: Float64Array;
}

function effectProducts({ layout, terms, fixedEffects }: DevianceProblem, products: Float64Array): EffectProducts {
  const firstKind = terms.map((_, term) => terms.slice(0, term).reduce((sum, { size }) => sum + size, 0));
  const kind = new Int32Array(layout.effects);
  const [square, response] = [new Float64Array(layout.effects), new Float64Array(layout.effects)];
  const fixed = new Float64Array(layout.effects * fixedEffects);
  for (let level = 0; level < layout.levels; level++) {
    const term = layout.levelTerm[level]!;
    const [own, tail, stride] = [ownAt(layout, level), tailAt(layout, level), blockStride(layout, level)];
    for (let column = 0; column < terms[term]!.size; column++) {
      const effect = layout.effectStart[level]! + column;
      kind[effect] = firstKind[term]! + column;
      square[effect] = products[own + column * (stride + 1)]!;
      for (let row = 0; row < fixedEffects; row++)
        fixed[effect * fixedEffects + row] = products[tail + row * stride + column]!;
      response[effect] = products[tail + fixedEffects * stride + column]!;
    }
  }
  return { kind, square, fixed, response };
}

/** First number of the block of a level with itself. */
function ownAt(layout: BlockLayout, level: number): number {
  if (level < layout.frontLevels) return layout.panelStart[level]!;
  const inside = layout.effectStart[level]! - layout.effectStart[layout.frontLevels]!;
  return layout.denseStart + inside * (layout.denseSize + 1);
}

/**
 * With M for what takes the fixed columns out and x for an effect's products with them, v'Mw of two effects is v'w less x'x. Its square is
 * summed over all pairs: here the part that is made of the x alone, and the residual's.
 */
function addOwn(
  { kind, square, fixed, response }: EffectProducts,
  width: number,
  size: number,
  observed: Float64Array,
  expected: Float64Array,
): void {
  const kinds = size - 1;
  const crossed = Array.from({ length: kinds }, () => new Float64Array(width * width));
  const perSquare = crossed.map(() => new Float64Array(width * width));
  for (let effect = 0; effect < kind.length; effect++) {
    const [own, length] = [kind[effect]!, square[effect]!];
    if (!(length > 0)) continue;
    let taken = 0;
    for (let row = 0; row < width; row++) {
      const one = fixed[effect * width + row]!;
      taken += one * one;
      for (let column = 0; column < width; column++) {
        const product = one * fixed[effect * width + column]!;
        crossed[own]![row * width + column]! += product;
        perSquare[own]![row * width + column]! += product / length;
      }
    }
    observed[own]! += response[effect]! ** 2 / length;
    expected[own * size + kinds]! += 1 - taken / length;
    expected[kinds * size + own]! += length - taken;
  }
  for (let row = 0; row < kinds; row++)
    for (let column = 0; column < kinds; column++)
      expected[row * size + column]! += perSquare[row]!.reduce((sum, one, at) => sum + one * crossed[column]![at]!, 0);
}

/** The rest: of pairs that meet in a row of the data. */
function addMeetings(
  layout: BlockLayout,
  products: Float64Array,
  { kind, square, fixed }: EffectProducts,
  width: number,
  size: number,
  expected: Float64Array,
): void {
  const { effectStart } = layout;
  eachBlock(layout, (base, stride, row, column) => {
    for (let one = effectStart[row]!; one < effectStart[row + 1]!; one++) {
      const last = row === column ? one + 1 : effectStart[column + 1]!;
      for (let other = effectStart[column]!; other < last; other++) {
        const product = products[base + (one - effectStart[row]!) * stride + other - effectStart[column]!]!;
        let shared = 0;
        for (let k = 0; k < width; k++) shared += fixed[one * width + k]! * fixed[other * width + k]!;
        const part = product * (product - 2 * shared);
        if (square[one]! > 0) expected[kind[one]! * size + kind[other]!]! += part / square[one]!;
        if (one !== other && square[other]! > 0) expected[kind[other]! * size + kind[one]!]! += part / square[other]!;
      }
    }
  });
}

function productWith(matrix: Float64Array, vector: Float64Array, size: number): number[] {
  return Array.from(vector, (_, row) => vector.reduce((sum, value, at) => sum + matrix[row * size + at]! * value, 0));
}
