import type { BlockLayout } from './block-layout.js';
import { blockStride, tailAt } from './cross-products.js';
import { eachBlock } from './each-block.js';

/**
 * Derivatives with respect to the terms' relative covariance factors, full square matrices, from the derivatives with
 * respect to the entries of the scaled matrix. With the scaled matrix F'AF + I, they are twice A F G, summed over the
 * levels of each term.
 */
export function factorDerivatives(
  products: Float64Array,
  layout: BlockLayout,
  factors: readonly Float64Array[],
  derivatives: Float64Array,
): Float64Array[] {
  const sums = factors.map((factor) => new Float64Array(factor.length));
  eachBlock(layout, (base, stride, row, column) => {
    const [above, beside] = [layout.levelTerm[row]!, layout.levelTerm[column]!];
    const [height, width] = [layout.termSize[above]!, layout.termSize[beside]!];
    addColumnShare(sums[beside]!, products, derivatives, base, stride, height, width, factors[above]!);
    if (row !== column) addRowShare(sums[above]!, products, derivatives, base, stride, height, width, factors[beside]!);
  });
  for (let level = 0; level < layout.levels; level++) {
    const term = layout.levelTerm[level]!;
    addTailShare(sums[term]!, products, derivatives, layout, level, layout.termSize[term]!);
  }
  for (const sum of sums) for (let at = 0; at < sum.length; at++) sum[at]! *= 2;
  return sums;
}

/** Adds B'(F G) for a block B of the products and the block G of the derivatives at the same place. */
function addColumnShare(
  sum: Float64Array,
  products: Float64Array,
  derivatives: Float64Array,
  base: number,
  stride: number,
  height: number,
  width: number,
  factor: Float64Array,
): void {
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      let moved = 0;
      for (let k = 0; k <= row; k++) moved += factor[row * height + k]! * derivatives[base + k * stride + column]!;
      for (let own = 0; own < width; own++) sum[own * width + column]! += products[base + row * stride + own]! * moved;
    }
  }
}

/** Adds B (F G') for a block B of the products and the block G of the derivatives at the same place. */
function addRowShare(
  sum: Float64Array,
  products: Float64Array,
  derivatives: Float64Array,
  base: number,
  stride: number,
  height: number,
  width: number,
  factor: Float64Array,
): void {
  for (let row = 0; row < width; row++) {
    for (let column = 0; column < height; column++) {
      let moved = 0;
      for (let k = 0; k <= row; k++) moved += factor[row * width + k]! * derivatives[base + column * stride + k]!;
      for (let own = 0; own < height; own++)
        sum[own * height + column]! += products[base + own * stride + row]! * moved;
    }
  }
}

function addTailShare(
  sum: Float64Array,
  products: Float64Array,
  derivatives: Float64Array,
  layout: BlockLayout,
  level: number,
  width: number,
): void {
  const base = tailAt(layout, level);
  const stride = blockStride(layout, level);
  for (let row = 0; row < layout.tail; row++) {
    for (let own = 0; own < width; own++) {
      const product = products[base + row * stride + own]!;
      for (let column = 0; column < width; column++) {
        sum[own * width + column]! += product * derivatives[base + row * stride + column]!;
      }
    }
  }
}

/**
 * Turns derivatives with respect to the scaled matrix into derivatives with respect to the products, each entry counted
 * as often as it occurs in the symmetric matrix, so that a plain sum of products with a component is the derivative of
 * that component's weight.
 */
export function productDerivatives(
  layout: BlockLayout,
  factors: readonly Float64Array[],
  derivatives: Float64Array,
): void {
  const { denseStart, denseSize, frontLevels } = layout;
  for (let level = 0; level < frontLevels; level++) {
    const term = layout.levelTerm[level]!;
    const width = layout.termSize[term]!;
    const start = layout.panelStart[level]!;
    const met = layout.panelLevels[level]!;
    for (let at = 0; at < met.length; at++) {
      const above = factors[layout.levelTerm[met[at]!]!]!;
      const base = start + layout.panelRows[level]![at]! * width;
      expandRows(derivatives, base, Math.sqrt(above.length), width, width, above);
    }
    expandColumns(derivatives, start, layout.panelHeight[level]!, width, width, factors[term]!);
    const end = start + layout.panelHeight[level]! * width;
    for (let at = start + width * width; at < end; at++) derivatives[at]! *= 2;
  }
  for (let level = frontLevels; level < layout.levels; level++) {
    const factor = factors[layout.levelTerm[level]!]!;
    const width = Math.sqrt(factor.length);
    const inside = layout.effectStart[level]! - layout.effectStart[frontLevels]!;
    expandRows(derivatives, denseStart + inside * denseSize, width, denseSize, denseSize, factor);
    expandColumns(derivatives, denseStart + inside, denseSize, width, denseSize, factor);
  }
}

/** Factor times block, in place. */
function expandRows(
  numbers: Float64Array,
  base: number,
  height: number,
  width: number,
  stride: number,
  factor: Float64Array,
): void {
  for (let column = 0; column < width; column++) {
    for (let row = height - 1; row >= 0; row--) {
      let sum = 0;
      for (let k = 0; k <= row; k++) sum += factor[row * height + k]! * numbers[base + k * stride + column]!;
      numbers[base + row * stride + column] = sum;
    }
  }
}

/** Block times transposed factor, in place. */
function expandColumns(
  numbers: Float64Array,
  base: number,
  height: number,
  width: number,
  stride: number,
  factor: Float64Array,
): void {
  for (let row = 0; row < height; row++) {
    for (let column = width - 1; column >= 0; column--) {
      let sum = 0;
      for (let k = 0; k <= column; k++) sum += numbers[base + row * stride + k]! * factor[column * width + k]!;
      numbers[base + row * stride + column] = sum;
    }
  }
}
