import type { BlockLayout } from './block-layout.js';

/** Effects that minimise the penalised sum of squares, on the scale of the problem. */
export interface SolvedEffects {
  /** Random effects before they are multiplied by their term's factor. */
  readonly spherical: Float64Array;
  /** On the turned columns. */
  readonly fixed: Float64Array;
}

/** Back-substitution through the factor: the response's row is what the others must add up to. */
export function solvedEffects(factor: Float64Array, layout: BlockLayout): SolvedEffects {
  const { effects, denseEffects, denseSize, denseStart, effectStart, frontLevels } = layout;
  const dense = new Float64Array(denseSize);
  dense[denseSize - 1] = -1;
  for (let column = denseSize - 2; column >= 0; column--) {
    let sum = 0;
    for (let row = column + 1; row < denseSize; row++)
      sum += factor[denseStart + row * denseSize + column]! * dense[row]!;
    dense[column] = -sum / factor[denseStart + column * (denseSize + 1)]!;
  }
  const spherical = new Float64Array(effects);
  spherical.set(dense.subarray(0, denseEffects), effectStart[frontLevels]!);
  for (let level = frontLevels - 1; level >= 0; level--) solvePanel(factor, layout, level, spherical, dense);
  return { spherical, fixed: dense.slice(denseEffects, denseSize - 1) };
}

function solvePanel(
  factor: Float64Array,
  layout: BlockLayout,
  level: number,
  spherical: Float64Array,
  dense: Float64Array,
): void {
  const width = layout.termSize[layout.levelTerm[level]!]!;
  const start = layout.panelStart[level]!;
  const frontEnd = layout.panelFrontEnd[level]!;
  const own = layout.effectStart[level]!;
  for (let column = width - 1; column >= 0; column--) {
    let sum = 0;
    layout.panelLevels[level]!.forEach((met, at) => {
      if (met >= layout.frontLevels) return;
      const [from, first] = [layout.panelRows[level]![at]!, layout.effectStart[met]!];
      const size = layout.effectStart[met + 1]! - first;
      for (let k = met === level ? column + 1 : 0; k < size; k++) {
        sum += factor[start + (from + k) * width + column]! * spherical[first + k]!;
      }
    });
    layout.panelDense[level]!.forEach((row, at) => {
      sum += factor[start + (frontEnd + at) * width + column]! * dense[row]!;
    });
    spherical[own + column] = -sum / factor[start + column * (width + 1)]!;
  }
}
