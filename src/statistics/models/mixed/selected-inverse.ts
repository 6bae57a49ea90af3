import type { BlockLayout } from './block-layout.js';

/** What the logarithm of each squared pivot counts for: random effects, fixed effects, response. */
export interface PivotWeights {
  readonly effects: number;
  readonly fixed: number;
  readonly response: number;
}

/**
 * Derivatives of the weighted sum of the logarithms of squared pivots with respect to the entries of the matrix that
 * was factorised, at the places where the layout keeps a number. With all weights 1 the sum is the log-determinant and
 * the derivatives are the entries of the inverse, which the recursion of Takahashi, Fagan and Chin (1973) finds without
 * the rest of the inverse. The recursion is linear in the weights, because pivots to the left do not depend on weights
 * to the right.
 *
 * Blocks on the diagonal and the dense square come out whole, other blocks once.
 */
export function pivotDerivatives(
  factor: Float64Array,
  layout: BlockLayout,
  weights: PivotWeights,
  derivatives: Float64Array,
): void {
  denseDerivatives(factor, layout, weights, derivatives);
  for (let level = layout.frontLevels - 1; level >= 0; level--) {
    panelDerivatives(factor, layout, level, weights.effects, derivatives);
  }
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

function panelDerivatives(
  factor: Float64Array,
  layout: BlockLayout,
  level: number,
  weight: number,
  derivatives: Float64Array,
): void {
  const width = layout.termSize[layout.levelTerm[level]!]!;
  const start = layout.panelStart[level]!;
  const height = layout.panelHeight[level]!;
  derivatives.fill(0, start, start + height * width);
  addInnerProducts(factor, layout, level, width, derivatives);
  addDenseProducts(factor, layout, level, width, derivatives);
  if (width === 1) {
    const pivot = factor[start]!;
    for (let at = start + 1; at < start + height; at++) derivatives[at]! /= pivot;
  } else {
    for (let row = width; row < height; row++) solveRight(factor, start, width, derivatives, start + row * width);
  }
  ownDerivatives(factor, start, width, height, weight, derivatives);
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
    const target = layout.panelLevels[level]![met + 1]!;
    const rows = inner[met]!;
    const size = layout.termSize[layout.levelTerm[target]!]!;
    const targetStart = layout.panelStart[target]!;
    const from = start + layout.panelRows[level]![met + 1]! * width;
    for (let row = 0; row < rows.length; row++) {
      const source = targetStart + rows[row]! * size;
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
  if (width === 1) {
    derivatives[row]! -= value * factor[column]!;
    if (row !== column) derivatives[column]! -= value * factor[row]!;
    return;
  }
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
