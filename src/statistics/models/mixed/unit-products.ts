import { groupBy } from '../../../plain/group-by.js';
import { blockStride, tailAt } from './cross-products.js';
import type { DevianceProblem } from './deviance.js';
import { eachBlock } from './each-block.js';

/** The cross-products of levels that meet, directly or through others: with nested terms, of one outermost level. */
export interface UnitProducts {
  /** First effect of each level, and the term of each level. */
  readonly starts: readonly number[];
  readonly terms: readonly number[];
  /** Random effects in all. */
  readonly size: number;
  /** Row-major squares and, for the fixed effects, `size` rows of one number per fixed effect. */
  readonly effects: Float64Array;
  readonly fixed: Float64Array;
}

/** Splits the cross-products into units that share no level, so that what is dense inside a unit stays small. */
export function unitProducts(problem: DevianceProblem): UnitProducts[] {
  const { layout, residual, fixedEffects } = problem;
  const products = residual.components[0]!;
  const homes = connectedLevels(problem, products);
  const members = groupBy(homes.keys(), (level) => homes[level]);
  const inside = new Int32Array(layout.levels);
  const units = new Map<number, UnitProducts>();
  for (const [home, levels] of members) {
    let size = 0;
    const starts = levels.map((level) => {
      inside[level] = size;
      size += layout.termSize[layout.levelTerm[level]!]!;
      return inside[level]!;
    });
    const fixed = new Float64Array(size * fixedEffects);
    levels.forEach((level, at) => {
      const base = tailAt(layout, level);
      const stride = blockStride(layout, level);
      for (let effect = 0; effect < layout.termSize[layout.levelTerm[level]!]!; effect++) {
        for (let column = 0; column < fixedEffects; column++) {
          fixed[(starts[at]! + effect) * fixedEffects + column] = products[base + column * stride + effect]!;
        }
      }
    });
    const terms = levels.map((level) => layout.levelTerm[level]!);
    units.set(home, { starts, terms, size, effects: new Float64Array(size * size), fixed });
  }
  eachBlock(layout, (base, stride, row, column) => {
    if (homes[row] !== homes[column]) return;
    const { effects, size } = units.get(homes[row]!)!;
    for (let down = 0; down < layout.termSize[layout.levelTerm[row]!]!; down++) {
      for (let across = 0; across < layout.termSize[layout.levelTerm[column]!]!; across++) {
        const value = products[base + down * stride + across]!;
        const [i, j] = [inside[row]! + down, inside[column]! + across];
        effects[i * size + j] = value;
        effects[j * size + i] = value;
      }
    }
  });
  return [...units.values()];
}

/** For each level one level that stands for all it is connected to. */
function connectedLevels({ layout }: DevianceProblem, products: Float64Array): Int32Array {
  const parent = Int32Array.from({ length: layout.levels }, (_, level) => level);
  const rootOf = (level: number): number => {
    let root = level;
    while (parent[root] !== root) root = parent[root]!;
    parent[level] = root;
    return root;
  };
  eachBlock(layout, (base, stride, row, column) => {
    if (row === column) return;
    const height = layout.termSize[layout.levelTerm[row]!]!;
    const width = layout.termSize[layout.levelTerm[column]!]!;
    let meets = false;
    for (let down = 0; down < height; down++) {
      for (let across = 0; across < width; across++) meets ||= products[base + down * stride + across] !== 0;
    }
    if (meets) parent[rootOf(row)] = rootOf(column);
  });
  return parent.map((_, level) => rootOf(level));
}
