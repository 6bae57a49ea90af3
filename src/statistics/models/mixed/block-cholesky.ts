import type { BlockLayout } from './block-layout.js';
import { mirrorDense } from './cross-products.js';
import type { AlikeLevels, EliminationOrder } from './elimination-order.js';
import { timesFactor, transposedFactorTimes } from './factor-times-block.js';

/** What elimination works on: numbers where the layout keeps them. */
export interface Elimination {
  /** The cross-products; each level's column is left as it stood when its turn came, the levels before it taken out. */
  readonly products: Float64Array;
  /** Cholesky factor of the scaled matrix. Panels keep the rows of later levels unscaled. */
  readonly factor: Float64Array;
}

/**
 * Cholesky factor at a trial of the relative covariance factors. The scaled matrix is the cross-products with each level's rows and
 * columns multiplied by its term's factor, plus the identity for the random effects. A level is scaled only when its turn comes: what it
 * hands on to those after it needs its own scale and not theirs.
 *
 * Panels come first, then the dense square; the panels of levels that are alike are left out. Returns whether every pivot was positive.
 */
export function eliminate(
  memory: Elimination,
  layout: BlockLayout,
  { alike, single }: EliminationOrder,
  factors: readonly Float64Array[],
): boolean {
  const { products, factor } = memory;
  for (const group of alike) if (!passTogether(memory, layout, group, factors)) return false;
  for (const level of single) {
    const term = layout.levelTerm[level]!;
    const width = layout.termSize[term]!;
    const start = layout.panelStart[level]!;
    const height = layout.panelHeight[level]!;
    if (width === 1) {
      if (!scaleColumn(memory, start, height, factors[term]![0]!)) return false;
      passColumnOn(memory, layout, level);
    } else {
      mirrorOwn(products, start, width);
      for (let at = start; at < start + height * width; at++) factor[at] = products[at]!;
      scalePanel(factor, start, height, width, factors[term]!);
      if (!factorisePanel(factor, start, width, height)) return false;
      updatePanels(memory, layout, level, width);
      updateDense(memory, layout, level, width);
    }
  }
  mirrorDense(products, layout);
  const { denseStart, denseSize } = layout;
  for (let at = denseStart; at < layout.length; at++) factor[at] = products[at]!;
  scaleDense(factor, layout, factors);
  return factorisePanel(factor, denseStart, denseSize, denseSize);
}

/** Takes levels that are alike out of what they meet, and leaves their pivot at the first of them. */
function passTogether(
  { products, factor }: Elimination,
  { levelTerm, panelStart }: BlockLayout,
  { levels: [first], square, targets, sums }: AlikeLevels,
  factors: readonly Float64Array[],
): boolean {
  const deviation = factors[levelTerm[first!]!]![0]!;
  const pivot = Math.sqrt(deviation * deviation * square + 1);
  if (!(pivot > 0)) return false;
  factor[panelStart[first!]!] = pivot;
  const share = (deviation / pivot) ** 2;
  for (let pair = 0; pair < targets.length; pair++) products[targets[pair]!]! -= share * sums[pair]!;
  return true;
}

/** Puts the panels of levels that were taken out together into the factor: effects are solved one by one. */
export function completeFactor(
  memory: Elimination,
  { levelTerm, panelStart, panelHeight }: BlockLayout,
  { alike }: EliminationOrder,
  factors: readonly Float64Array[],
): void {
  for (const { levels } of alike) {
    for (const level of levels)
      scaleColumn(memory, panelStart[level]!, panelHeight[level]!, factors[levelTerm[level]!]![0]!);
  }
}

/** The panel of a level with a single effect. */
function scaleColumn({ products, factor }: Elimination, start: number, height: number, deviation: number): boolean {
  const pivot = Math.sqrt(deviation * deviation * products[start]! + 1);
  if (!(pivot > 0)) return false;
  factor[start] = pivot;
  const scale = deviation / pivot;
  for (let at = start + 1; at < start + height; at++) factor[at] = scale * products[at]!;
  return true;
}

/** What a level with a single effect takes out of those after it. */
function passColumnOn({ products, factor }: Elimination, layout: BlockLayout, level: number): void {
  const inner = layout.panelInner[level]!;
  const start = layout.panelStart[level]!;
  for (let met = 0; met < inner.length; met++) {
    const places = inner[met]!;
    const size = layout.termSize[layout.levelTerm[layout.panelLevels[level]![met + 1]!]!]!;
    const from = start + layout.panelRows[level]![met + 1]!;
    for (let column = 0; column < size; column++) {
      const across = factor[from + column]!;
      for (let row = column; row < places.length; row++)
        products[places[row]! + column]! -= across * factor[from + row]!;
    }
  }
  const rows = layout.panelDense[level]!;
  const from = start + layout.panelFrontEnd[level]!;
  for (let row = 0; row < rows.length; row++) {
    const down = factor[from + row]!;
    const into = layout.denseStart + rows[row]! * layout.denseSize;
    for (let column = 0; column <= row; column++) products[into + rows[column]!]! -= down * factor[from + column]!;
  }
}

/** Copies the lower triangle of a level's own block to the upper. */
function mirrorOwn(numbers: Float64Array, start: number, width: number): void {
  for (let row = 1; row < width; row++) {
    for (let column = 0; column < row; column++) {
      numbers[start + column * width + row] = numbers[start + row * width + column]!;
    }
  }
}

/** Scales a level's column, and the rows of its own block. */
function scalePanel(numbers: Float64Array, start: number, height: number, width: number, factor: Float64Array): void {
  const place = { start, stride: width };
  timesFactor(numbers, place, height, width, factor);
  transposedFactorTimes(numbers, place, width, width, factor);
  for (let effect = 0; effect < width; effect++) numbers[start + effect * (width + 1)]! += 1;
}

/** Scales both rows and columns of the dense square. */
function scaleDense(numbers: Float64Array, layout: BlockLayout, factors: readonly Float64Array[]): void {
  const { denseStart: start, denseSize: stride, effectStart, frontLevels } = layout;
  for (let level = frontLevels; level < layout.levels; level++) {
    const term = layout.levelTerm[level]!;
    const width = layout.termSize[term]!;
    const inside = effectStart[level]! - effectStart[frontLevels]!;
    timesFactor(numbers, { start: start + inside, stride }, stride, width, factors[term]!);
    transposedFactorTimes(numbers, { start: start + inside * stride, stride }, width, stride, factors[term]!);
    for (let effect = 0; effect < width; effect++) numbers[start + (inside + effect) * (stride + 1)]! += 1;
  }
}

function factorisePanel(numbers: Float64Array, start: number, width: number, height: number): boolean {
  for (let row = 0; row < height; row++) {
    const at = start + row * width;
    const last = Math.min(row, width - 1);
    for (let column = 0; column <= last; column++) {
      const above = start + column * width;
      let sum = numbers[at + column]!;
      for (let k = 0; k < column; k++) sum -= numbers[at + k]! * numbers[above + k]!;
      if (row === column) {
        if (!(sum > 0)) return false;
        numbers[at + column] = Math.sqrt(sum);
      } else numbers[at + column] = sum / numbers[above + column]!;
    }
  }
  return true;
}

function updatePanels({ products, factor }: Elimination, layout: BlockLayout, level: number, width: number): void {
  const inner = layout.panelInner[level]!;
  const start = layout.panelStart[level]!;
  for (let met = 0; met < inner.length; met++) {
    const places = inner[met]!;
    const size = layout.termSize[layout.levelTerm[layout.panelLevels[level]![met + 1]!]!]!;
    const from = start + layout.panelRows[level]![met + 1]! * width;
    for (let row = 0; row < places.length; row++) {
      const at = from + row * width;
      const into = places[row]!;
      const last = Math.min(row, size - 1);
      for (let column = 0; column <= last; column++) {
        const across = from + column * width;
        let sum = 0;
        for (let k = 0; k < width; k++) sum += factor[at + k]! * factor[across + k]!;
        products[into + column]! -= sum;
      }
    }
  }
}

function updateDense({ products, factor }: Elimination, layout: BlockLayout, level: number, width: number): void {
  const rows = layout.panelDense[level]!;
  const { denseStart, denseSize } = layout;
  const from = layout.panelStart[level]! + layout.panelFrontEnd[level]! * width;
  for (let row = 0; row < rows.length; row++) {
    const at = from + row * width;
    const into = denseStart + rows[row]! * denseSize;
    for (let column = 0; column <= row; column++) {
      const across = from + column * width;
      let sum = 0;
      for (let k = 0; k < width; k++) sum += factor[at + k]! * factor[across + k]!;
      products[into + rows[column]!]! -= sum;
    }
  }
}
