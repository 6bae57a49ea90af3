import type { BlockLayout } from './block-layout.js';
import { factorTimes } from './factor-times-block.js';

/** Effects that minimise the penalised sum of squares, on the scale of the problem. */
export interface SolvedEffects {
  /** On the terms' scaled columns. */
  readonly random: Float64Array;
  /** On the turned columns. */
  readonly fixed: Float64Array;
}

/** Back-substitution through the factor: the response's row is what the others must add up to. */
export function solvedEffects(
  factor: Float64Array,
  layout: BlockLayout,
  factors: readonly Float64Array[],
): SolvedEffects {
  const { effects, denseEffects, denseSize, denseStart, effectStart, frontLevels } = layout;
  const dense = new Float64Array(denseSize);
  dense[denseSize - 1] = -1;
  for (let column = denseSize - 2; column >= 0; column--) {
    let sum = 0;
    for (let row = column + 1; row < denseSize; row++)
      sum += factor[denseStart + row * denseSize + column]! * dense[row]!;
    dense[column] = -sum / factor[denseStart + column * (denseSize + 1)]!;
  }
  // Panels keep the rows of those after them unscaled, so that each level is multiplied by its factor before the next is solved.
  const from = effectStart[frontLevels]!;
  const byFactor = (numbers: Float64Array, level: number, start: number) => {
    const term = layout.levelTerm[level]!;
    factorTimes(numbers, { start, stride: 1 }, layout.termSize[term]!, 1, factors[term]!);
  };
  for (let level = frontLevels; level < layout.levels; level++) byFactor(dense, level, effectStart[level]! - from);
  const random = new Float64Array(effects);
  random.set(dense.subarray(0, denseEffects), from);
  for (let level = frontLevels - 1; level >= 0; level--) {
    solvePanel(factor, layout, level, random, dense);
    byFactor(random, level, effectStart[level]!);
  }
  return { random, fixed: dense.slice(denseEffects, denseSize - 1) };
}

function solvePanel(
  factor: Float64Array,
  layout: BlockLayout,
  level: number,
  random: Float64Array,
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
        sum += factor[start + (from + k) * width + column]! * random[first + k]!;
      }
    });
    layout.panelDense[level]!.forEach((row, at) => {
      sum += factor[start + (frontEnd + at) * width + column]! * dense[row]!;
    });
    random[own + column] = -sum / factor[start + column * (width + 1)]!;
  }
}
