import type { BlockLayout } from './block-layout.js';
import { blockStride } from './cross-products.js';

/** Visits the first number of every block of two levels that is kept, the row's level not before the column's. */
export function eachBlock(
  layout: BlockLayout,
  visit: (base: number, stride: number, row: number, column: number) => void,
): void {
  const { frontLevels, levels, effectStart, denseStart, denseSize } = layout;
  for (let column = 0; column < frontLevels; column++) {
    const stride = blockStride(layout, column);
    const met = layout.panelLevels[column]!;
    for (let at = 0; at < met.length; at++) {
      visit(layout.panelStart[column]! + layout.panelRows[column]![at]! * stride, stride, met[at]!, column);
    }
  }
  const from = effectStart[frontLevels]!;
  for (let column = frontLevels; column < levels; column++) {
    for (let row = column; row < levels; row++) {
      const base = denseStart + (effectStart[row]! - from) * denseSize + effectStart[column]! - from;
      visit(base, denseSize, row, column);
    }
  }
}
