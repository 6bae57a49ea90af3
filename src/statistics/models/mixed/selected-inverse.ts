import type { Elimination } from './block-cholesky.js';
import type { BlockLayout } from './block-layout.js';
import type { AlikeLevels, EliminationOrder } from './elimination-order.js';
import { type BlockPlace, factorTimes, timesTransposedFactor } from './factor-times-block.js';

/** What the logarithm of each squared pivot counts for: random effects, fixed effects, response. */
export interface PivotWeights {
  readonly effects: number;
  readonly fixed: number;
  readonly response: number;
}

/** What the derivatives are made of: the elimination, and memory for them. */
export interface DerivedElimination extends Elimination {
  readonly derivatives: Float64Array;
}

/**
 * Derivatives of the weighted sum of the logarithms of squared pivots with respect to the entries of the cross-products, at the places
 * where the layout keeps a number. With all weights 1 and the identity for a factor they are the entries of an inverse, which the
 * recursion of Takahashi, Fagan and Chin (1973) finds without the rest of the inverse. The recursion is linear in the weights, because
 * pivots to the left do not depend on weights to the right.
 *
 * Blocks on the diagonal and the dense square come out whole, other blocks once; the panels of levels that are alike are left out.
 *
 * With the levels before it taken out, a level's column A depends on no other level's factor. So the derivatives with respect to the
 * terms' factors F are found on the way: twice A times that with respect to the scaled column, summed over a term's levels.
 *
 * @returns derivatives with respect to the terms' relative covariance factors, full square matrices
 */
export function pivotDerivatives(
  memory: DerivedElimination,
  layout: BlockLayout,
  { alike, single }: EliminationOrder,
  factors: readonly Float64Array[],
  weights: PivotWeights,
): Float64Array[] {
  const { factor, derivatives } = memory;
  const slopes = factors.map(({ length }) => new Float64Array(length));
  denseDerivatives(factor, layout, weights, derivatives);
  addDenseSlopes(memory, layout, factors, slopes);
  for (let at = single.length - 1; at >= 0; at--) {
    const level = single[at]!;
    const term = layout.levelTerm[level]!;
    const start = layout.panelStart[level]!;
    const height = layout.panelHeight[level]!;
    const width = layout.termSize[term]!;
    if (width === 1) {
      for (let number = start; number < start + height; number++) derivatives[number] = 0;
      addInnerColumns(factor, layout, level, derivatives);
      addDenseColumn(factor, layout, level, derivatives);
      slopes[term]![0]! += endColumn(memory, start, height, weights.effects, factors[term]![0]!);
    } else {
      derivatives.fill(0, start, start + height * width);
      addInnerProducts(factor, layout, level, width, derivatives);
      addDenseProducts(factor, layout, level, width, derivatives);
      for (let row = width; row < height; row++) solveRight(factor, start, width, derivatives, start + row * width);
      ownDerivatives(factor, start, width, height, weights.effects, derivatives);
      endPanel(memory, { start, stride: width }, height, width, factors[term]!, slopes[term]!);
    }
  }
  for (const group of alike) {
    const term = layout.levelTerm[group.levels[0]!]!;
    slopes[term]![0]! += slopeTogether(group, derivatives, weights.effects, factors[term]![0]!);
  }
  for (const slope of slopes) for (let at = 0; at < slope.length; at++) slope[at]! *= 2;
  return slopes;
}

/** Half of the slope of levels that are alike: by their pivots, and by the multiple of their products that they take out. */
function slopeTogether(
  { levels, square, targets, counted }: AlikeLevels,
  derivatives: Float64Array,
  weight: number,
  deviation: number,
): number {
  let sum = 0;
  for (let pair = 0; pair < targets.length; pair++) sum += derivatives[targets[pair]!]! * counted[pair]!;
  const pivot = deviation * deviation * square + 1;
  return (deviation * (weight * levels.length * square - sum / pivot)) / pivot;
}

/** Turns the dense square from derivatives by the scaled matrix into those by the products; half-way, the levels' slopes are taken. */
function addDenseSlopes(
  { products, derivatives }: DerivedElimination,
  layout: BlockLayout,
  factors: readonly Float64Array[],
  slopes: readonly Float64Array[],
): void {
  const { denseStart, denseSize: stride, effectStart, frontLevels, levelTerm } = layout;
  const inside = (level: number) => effectStart[level]! - effectStart[frontLevels]!;
  for (let level = frontLevels; level < layout.levels; level++) {
    const term = levelTerm[level]!;
    const place = { start: denseStart + inside(level) * stride, stride };
    factorTimes(derivatives, place, layout.termSize[term]!, stride, factors[term]!);
  }
  for (let level = frontLevels; level < layout.levels; level++) {
    const term = levelTerm[level]!;
    const place = { start: denseStart + inside(level), stride };
    addSlopes(slopes[term]!, products, derivatives, place, stride, layout.termSize[term]!);
  }
  for (let level = frontLevels; level < layout.levels; level++) {
    const term = levelTerm[level]!;
    const place = { start: denseStart + inside(level), stride };
    timesTransposedFactor(derivatives, place, stride, layout.termSize[term]!, factors[term]!);
  }
}

/** Adds the products of two columns of blocks, row by row. */
function addSlopes(
  sum: Float64Array,
  products: Float64Array,
  derivatives: Float64Array,
  { start, stride }: BlockPlace,
  height: number,
  width: number,
): void {
  for (let row = 0; row < height; row++) {
    const at = start + row * stride;
    for (let own = 0; own < width; own++) {
      const product = products[at + own]!;
      for (let column = 0; column < width; column++) sum[own * width + column]! += product * derivatives[at + column]!;
    }
  }
}

/** Takes a level's slopes, and turns its panel into derivatives by the products. */
function endPanel(
  { products, derivatives }: DerivedElimination,
  place: BlockPlace,
  height: number,
  width: number,
  factor: Float64Array,
  slopes: Float64Array,
): void {
  factorTimes(derivatives, place, width, width, factor);
  addSlopes(slopes, products, derivatives, place, height, width);
  timesTransposedFactor(derivatives, place, height, width, factor);
}

/** The same for a level with a single effect, from the sums that its rows have come to. Returns its half of the slope. */
function endColumn(
  { products, factor, derivatives }: DerivedElimination,
  start: number,
  height: number,
  weight: number,
  deviation: number,
): number {
  const pivot = factor[start]!;
  let own = weight / pivot;
  let slope = 0;
  for (let at = start + 1; at < start + height; at++) {
    const entry = derivatives[at]! / pivot;
    own -= factor[at]! * entry;
    slope += products[at]! * entry;
    derivatives[at] = deviation * entry;
  }
  own /= pivot;
  derivatives[start] = deviation * deviation * own;
  return slope + products[start]! * deviation * own;
}

function denseDerivatives(
  factor: Float64Array,
  { denseStart, denseSize, denseEffects }: BlockLayout,
  weights: PivotWeights,
  derivatives: Float64Array,
): void {
  const weightOf = (column: number) => {
    if (column < denseEffects) return weights.effects;
    return column < denseSize - 1 ? weights.fixed : weights.response;
  };
  for (let column = denseSize - 1; column >= 0; column--) {
    const pivot = factor[denseStart + column * denseSize + column]!;
    let own = weightOf(column) / pivot;
    for (let row = denseSize - 1; row > column; row--) {
      let sum = 0;
      for (let k = column + 1; k < denseSize; k++) {
        sum += derivatives[denseStart + row * denseSize + k]! * factor[denseStart + k * denseSize + column]!;
      }
      const entry = -sum / pivot;
      derivatives[denseStart + row * denseSize + column] = entry;
      derivatives[denseStart + column * denseSize + row] = entry;
      own -= factor[denseStart + row * denseSize + column]! * entry;
    }
    derivatives[denseStart + column * denseSize + column] = own / pivot;
  }
}

/** Of a level with a single effect: products of the derivatives of those after it with its column. */
function addInnerColumns(factor: Float64Array, layout: BlockLayout, level: number, derivatives: Float64Array): void {
  const inner = layout.panelInner[level]!;
  const start = layout.panelStart[level]!;
  for (let met = 0; met < inner.length; met++) {
    const places = inner[met]!;
    const size = layout.termSize[layout.levelTerm[layout.panelLevels[level]![met + 1]!]!]!;
    const from = start + layout.panelRows[level]![met + 1]!;
    for (let column = 0; column < size; column++) {
      const across = factor[from + column]!;
      let sum = derivatives[places[column]! + column]! * across;
      for (let row = column + 1; row < places.length; row++) {
        const value = derivatives[places[row]! + column]!;
        derivatives[from + row]! -= value * across;
        sum += value * factor[from + row]!;
      }
      derivatives[from + column]! -= sum;
    }
  }
}

function addDenseColumn(factor: Float64Array, layout: BlockLayout, level: number, derivatives: Float64Array): void {
  const rows = layout.panelDense[level]!;
  const from = layout.panelStart[level]! + layout.panelFrontEnd[level]!;
  for (let row = 0; row < rows.length; row++) {
    const source = layout.denseStart + rows[row]! * layout.denseSize;
    let sum = 0;
    for (let column = 0; column < rows.length; column++) {
      sum += derivatives[source + rows[column]!]! * factor[from + column]!;
    }
    derivatives[from + row]! -= sum;
  }
}

/**
 * Products of the derivatives that belong to pairs of the panel's rows, the upper of which is a front level, with the
 * panel.
 */
function addInnerProducts(
  factor: Float64Array,
  layout: BlockLayout,
  level: number,
  width: number,
  derivatives: Float64Array,
): void {
  const inner = layout.panelInner[level]!;
  const start = layout.panelStart[level]!;
  for (let met = 0; met < inner.length; met++) {
    const places = inner[met]!;
    const size = layout.termSize[layout.levelTerm[layout.panelLevels[level]![met + 1]!]!]!;
    const from = start + layout.panelRows[level]![met + 1]! * width;
    for (let row = 0; row < places.length; row++) {
      const source = places[row]!;
      const last = Math.min(row, size - 1);
      for (let column = 0; column <= last; column++) {
        addPair(factor, derivatives, derivatives[source + column]!, from + row * width, from + column * width, width);
      }
    }
  }
}

function addDenseProducts(
  factor: Float64Array,
  layout: BlockLayout,
  level: number,
  width: number,
  derivatives: Float64Array,
): void {
  const rows = layout.panelDense[level]!;
  const from = layout.panelStart[level]! + layout.panelFrontEnd[level]! * width;
  for (let row = 0; row < rows.length; row++) {
    const source = layout.denseStart + rows[row]! * layout.denseSize;
    for (let k = 0; k < width; k++) {
      let sum = 0;
      // The dense square is whole, so that each row is one sum and nothing has to be written twice.
      for (let column = 0; column < rows.length; column++) {
        sum += derivatives[source + rows[column]!]! * factor[from + column * width + k]!;
      }
      derivatives[from + row * width + k]! -= sum;
    }
  }
}

function addPair(
  factor: Float64Array,
  derivatives: Float64Array,
  value: number,
  row: number,
  column: number,
  width: number,
): void {
  for (let k = 0; k < width; k++) derivatives[row + k]! -= value * factor[column + k]!;
  if (row === column) return;
  for (let k = 0; k < width; k++) derivatives[column + k]! -= value * factor[row + k]!;
}

/** Row vector times the inverse of the panel's lower triangle. */
function solveRight(factor: Float64Array, start: number, width: number, vector: Float64Array, at: number): void {
  for (let column = width - 1; column >= 0; column--) {
    let sum = vector[at + column]!;
    for (let k = column + 1; k < width; k++) sum -= vector[at + k]! * factor[start + k * width + column]!;
    vector[at + column] = sum / factor[start + column * width + column]!;
  }
}

function ownDerivatives(
  factor: Float64Array,
  start: number,
  width: number,
  height: number,
  weight: number,
  derivatives: Float64Array,
): void {
  for (let column = width - 1; column >= 0; column--) {
    const pivot = factor[start + column * width + column]!;
    for (let row = width - 1; row >= column; row--) {
      let sum = row === column ? weight / pivot : 0;
      for (let k = column + 1; k < height; k++) {
        const inside = k < width;
        const entry = inside
          ? derivatives[start + Math.max(row, k) * width + Math.min(row, k)]!
          : derivatives[start + k * width + row]!;
        sum -= factor[start + k * width + column]! * entry;
      }
      derivatives[start + row * width + column] = sum / pivot;
      derivatives[start + column * width + row] = sum / pivot;
    }
  }
}
