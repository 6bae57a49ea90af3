import type { BlockLayout } from './block-layout.js';

/**
 * Cholesky factor of the whole matrix, in place: panels first, each handing its products on to what it meets, then the
 * dense square. Returns whether every pivot was positive.
 */
export function factorise(numbers: Float64Array, layout: BlockLayout): boolean {
  for (let level = 0; level < layout.frontLevels; level++) {
    const start = layout.panelStart[level]!;
    const width = layout.termSize[layout.levelTerm[level]!]!;
    const height = layout.panelHeight[level]!;
    if (!factorisePanel(numbers, start, width, height)) return false;
    updatePanels(numbers, layout, level, width);
    updateDense(numbers, layout, level, width);
  }
  return factorisePanel(numbers, layout.denseStart, layout.denseSize, layout.denseSize);
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

function updatePanels(numbers: Float64Array, layout: BlockLayout, level: number, width: number): void {
  const inner = layout.panelInner[level]!;
  const start = layout.panelStart[level]!;
  for (let met = 0; met < inner.length; met++) {
    const target = layout.panelLevels[level]![met + 1]!;
    const rows = inner[met]!;
    const size = layout.termSize[layout.levelTerm[target]!]!;
    const targetStart = layout.panelStart[target]!;
    const from = start + layout.panelRows[level]![met + 1]! * width;
    for (let row = 0; row < rows.length; row++) {
      const at = from + row * width;
      const into = targetStart + rows[row]! * size;
      const last = Math.min(row, size - 1);
      for (let column = 0; column <= last; column++) {
        const across = from + column * width;
        let sum = numbers[at]! * numbers[across]!;
        for (let k = 1; k < width; k++) sum += numbers[at + k]! * numbers[across + k]!;
        numbers[into + column]! -= sum;
      }
    }
  }
}

function updateDense(numbers: Float64Array, layout: BlockLayout, level: number, width: number): void {
  const rows = layout.panelDense[level]!;
  const { denseStart, denseSize } = layout;
  const from = layout.panelStart[level]! + layout.panelFrontEnd[level]! * width;
  for (let row = 0; row < rows.length; row++) {
    const at = from + row * width;
    const into = denseStart + rows[row]! * denseSize;
    for (let column = 0; column <= row; column++) {
      const across = from + column * width;
      let sum = numbers[at]! * numbers[across]!;
      for (let k = 1; k < width; k++) sum += numbers[at + k]! * numbers[across + k]!;
      numbers[into + rows[column]!]! -= sum;
    }
  }
}
