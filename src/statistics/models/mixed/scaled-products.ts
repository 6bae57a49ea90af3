import type { BlockLayout } from './block-layout.js';

/**
 * The matrix to factorise at a trial of the relative covariance factors: the cross-products with each level's rows and
 * columns multiplied by its term's factor, plus the identity for the random effects.
 */
export function scaleProducts(
  products: Float64Array,
  layout: BlockLayout,
  factors: readonly Float64Array[],
  scaled: Float64Array,
): void {
  scaled.set(products);
  for (let level = 0; level < layout.frontLevels; level++) {
    const term = layout.levelTerm[level]!;
    const width = layout.termSize[term]!;
    const start = layout.panelStart[level]!;
    scaleRight(scaled, start, layout.panelHeight[level]!, width, width, factors[term]!);
    const met = layout.panelLevels[level]!;
    for (let at = 0; at < met.length; at++) {
      const other = layout.levelTerm[met[at]!]!;
      const block = start + layout.panelRows[level]![at]! * width;
      scaleLeft(scaled, block, layout.termSize[other]!, width, width, factors[other]!);
    }
    for (let effect = 0; effect < width; effect++) scaled[start + effect * (width + 1)]! += 1;
  }
  const { denseStart, denseSize, effectStart, frontLevels } = layout;
  for (let level = frontLevels; level < layout.levels; level++) {
    const term = layout.levelTerm[level]!;
    const width = layout.termSize[term]!;
    const inside = effectStart[level]! - effectStart[frontLevels]!;
    scaleRight(scaled, denseStart + inside, denseSize, width, denseSize, factors[term]!);
    scaleLeft(scaled, denseStart + inside * denseSize, width, denseSize, denseSize, factors[term]!);
    for (let effect = 0; effect < width; effect++) scaled[denseStart + (inside + effect) * (denseSize + 1)]! += 1;
  }
}

/** Rows of `width` numbers times the lower triangular factor. */
function scaleRight(
  numbers: Float64Array,
  start: number,
  height: number,
  width: number,
  stride: number,
  factor: Float64Array,
): void {
  for (let row = 0; row < height; row++) {
    const at = start + row * stride;
    for (let column = 0; column < width; column++) {
      let sum = 0;
      for (let k = column; k < width; k++) sum += numbers[at + k]! * factor[k * width + column]!;
      numbers[at + column] = sum;
    }
  }
}

/** The transpose of the factor times a block of as many rows. */
function scaleLeft(
  numbers: Float64Array,
  start: number,
  height: number,
  width: number,
  stride: number,
  factor: Float64Array,
): void {
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      let sum = 0;
      for (let k = row; k < height; k++) sum += factor[k * height + row]! * numbers[start + k * stride + column]!;
      numbers[start + row * stride + column] = sum;
    }
  }
}
