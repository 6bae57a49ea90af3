import type { BlockLayout } from './block-layout.js';

/** In which order levels are eliminated: those that are alike together and first, then the others one by one. */
export interface EliminationOrder {
  readonly alike: readonly AlikeLevels[];
  /** Front levels that are eliminated by themselves, ascending. */
  readonly single: Int32Array;
}

/**
 * Levels with a single effect and the same square that nothing is taken out of before, and that meet the same levels: stations of a wall with
 * as many readings each. At any trial they take the same multiple of their products out of what they meet, so that those are added up once.
 */
export interface AlikeLevels {
  readonly levels: readonly number[];
  readonly square: number;
  /** Where a pair of a level's rows stands among the numbers. */
  readonly targets: Int32Array;
  /** Of each pair the products, summed over the levels; and once more for a pair that the symmetric matrix has twice. */
  readonly sums: Float64Array;
  readonly counted: Float64Array;
}

/** Lists of the pairs of more rows would take more memory than they are worth. */
const mostRows = 32;

/** @param products of residuals with equal variances; undefined where products change from trial to trial */
export function eliminationOrder(layout: BlockLayout, products: Float64Array | undefined): EliminationOrder {
  const groups = products === undefined ? [] : groupsOfAlike(layout, products).filter(({ length }) => length > 1);
  const isAlike = new Uint8Array(layout.frontLevels);
  for (const group of groups) for (const level of group) isAlike[level] = 1;
  return {
    alike: products === undefined ? [] : groups.map((levels) => alikeLevels(layout, products, levels)),
    single: Int32Array.from(layout.panelHeight.keys()).filter((level) => isAlike[level] === 0),
  };
}

function groupsOfAlike(layout: BlockLayout, products: Float64Array): number[][] {
  const { frontLevels, levelTerm, panelHeight, panelLevels, panelStart, termSize } = layout;
  const isMet = new Uint8Array(layout.levels);
  /** By the first level that they meet. */
  const found = new Map<number, number[][]>();
  const isLike = (one: number, other: number) =>
    products[panelStart[one]!] === products[panelStart[other]!] && meetTheSame(panelLevels[one]!, panelLevels[other]!);
  for (let level = 0; level < frontLevels; level++) {
    const met = panelLevels[level]!;
    for (let at = 1; at < met.length; at++) isMet[met[at]!] = 1;
    if (isMet[level] === 1 || termSize[levelTerm[level]!] !== 1 || panelHeight[level]! > mostRows) continue;
    const key = met[1] ?? -1;
    const groups = found.get(key) ?? [];
    found.set(key, groups);
    const group = groups.find(([first]) => levelTerm[first!] === levelTerm[level] && isLike(first!, level));
    if (group) group.push(level);
    else groups.push([level]);
  }
  return [...found.values()].flat();
}

/** Whether two panels meet the same levels, apart from their own. */
function meetTheSame(one: Int32Array, other: Int32Array): boolean {
  if (one.length !== other.length) return false;
  for (let at = 1; at < one.length; at++) if (one[at] !== other[at]) return false;
  return true;
}

function alikeLevels(layout: BlockLayout, products: Float64Array, levels: readonly number[]): AlikeLevels {
  const { panelStart } = layout;
  const [first] = levels;
  const { downs, acrosses, targets } = pairsOf(layout, first!);
  const sums = new Float64Array(targets.length);
  for (const level of levels) {
    const start = panelStart[level]!;
    for (let pair = 0; pair < sums.length; pair++)
      sums[pair]! += products[start + downs[pair]!]! * products[start + acrosses[pair]!]!;
  }
  const counted = sums.map((sum, pair) => (downs[pair] === acrosses[pair] ? sum : 2 * sum));
  return { levels, square: products[panelStart[first!]!]!, targets: Int32Array.from(targets), sums, counted };
}

/** Pairs of a panel's rows below its own, and where the number of each pair is kept. */
function pairsOf(layout: BlockLayout, level: number) {
  const [downs, acrosses, targets]: [number[], number[], number[]] = [[], [], []];
  layout.panelInner[level]!.forEach((places, met) => {
    const from = layout.panelRows[level]![met + 1]!;
    const size = layout.termSize[layout.levelTerm[layout.panelLevels[level]![met + 1]!]!]!;
    places.forEach((place, row) => {
      for (let column = 0; column <= Math.min(row, size - 1); column++) {
        downs.push(from + row);
        acrosses.push(from + column);
        targets.push(place + column);
      }
    });
  });
  const [rows, from] = [layout.panelDense[level]!, layout.panelFrontEnd[level]!];
  rows.forEach((place, row) => {
    for (let column = 0; column <= row; column++) {
      downs.push(from + row);
      acrosses.push(from + column);
      targets.push(layout.denseStart + place * layout.denseSize + rows[column]!);
    }
  });
  return { downs, acrosses, targets };
}
