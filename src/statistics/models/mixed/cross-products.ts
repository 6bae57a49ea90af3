import type { BlockLayout } from './block-layout.js';
import type { ScaledTerm } from './scaled-term.js';

/** What one row of the data brings to the cross-products: effects of its levels, then fixed effects and response. */
export interface RowValues {
  readonly terms: readonly ScaledTerm[];
  /** Row-major, observations by `layout.tail`. */
  readonly tail: Float64Array;
}

/** First number of the block where `row` meets `column`, a level that is not larger. */
function blockAt(layout: BlockLayout, row: number, column: number): number {
  const { frontLevels, effectStart } = layout;
  if (column >= frontLevels) {
    const from = effectStart[frontLevels]!;
    return layout.denseStart + (effectStart[row]! - from) * layout.denseSize + effectStart[column]! - from;
  }
  const met = layout.panelLevels[column]!;
  let low = 0;
  let high = met.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (met[middle]! < row) low = middle + 1;
    else high = middle;
  }
  return layout.panelStart[column]! + layout.panelRows[column]![low]! * blockStride(layout, column);
}

/** First number of the tail's rows in the column of a level. */
export function tailAt(layout: BlockLayout, column: number): number {
  const { frontLevels, effectStart } = layout;
  if (column >= frontLevels) {
    const inside = effectStart[column]! - effectStart[frontLevels]!;
    return layout.denseStart + layout.denseEffects * layout.denseSize + inside;
  }
  const above = layout.panelHeight[column]! - layout.tail;
  return layout.panelStart[column]! + above * blockStride(layout, column);
}

/** How far apart the rows of a block lie that stands in the column of a level. */
export function blockStride(layout: BlockLayout, column: number): number {
  return column < layout.frontLevels ? layout.termSize[layout.levelTerm[column]!]! : layout.denseSize;
}

/** First number of the square of the tail with itself. */
function cornerAt(layout: BlockLayout): number {
  return layout.denseStart + layout.denseEffects * (layout.denseSize + 1);
}

/** Adds the product of one row with itself. */
export function addSquare(target: Float64Array, layout: BlockLayout, data: RowValues, row: number): void {
  addRun(target, layout, data, row, row + 1);
}

/**
 * Adds the products of every row with itself. Rows of the same levels that follow one another are taken together, so that only where the
 * levels change their places have to be looked for.
 */
export function addSquares(target: Float64Array, layout: BlockLayout, data: RowValues, rows: number): void {
  let from = 0;
  for (let row = 1; row <= rows; row++) {
    if (row < rows && isSameCell(data.terms, row)) continue;
    addRun(target, layout, data, from, row);
    from = row;
  }
}

function isSameCell(terms: readonly ScaledTerm[], row: number): boolean {
  for (let term = 0; term < terms.length; term++) {
    const { codes } = terms[term]!.grouping;
    if (codes[row] !== codes[row - 1]) return false;
  }
  return true;
}

/** Rows of the same levels that follow one another; `end` is the row after the last. */
function addRun(target: Float64Array, layout: BlockLayout, data: RowValues, from: number, end: number): void {
  const { terms, tail: values } = data;
  const tail = { values, size: layout.tail };
  for (let term = 0; term < terms.length; term++) {
    const own = terms[term]!;
    const column = layout.termStart[term]! + own.grouping.codes[from]!;
    const stride = blockStride(layout, column);
    for (let other = term; other < terms.length; other++) {
      const facing = terms[other]!;
      const base = blockAt(layout, layout.termStart[other]! + facing.grouping.codes[from]!, column);
      addSums(target, base, stride, facing, own, from, end);
    }
    addSums(target, tailAt(layout, column), stride, tail, own, from, end);
  }
  addSums(target, cornerAt(layout), layout.denseSize, tail, tail, from, end);
}

/** Some numbers of every row. */
type Columns = Pick<ScaledTerm, 'values' | 'size'>;

/** Each number of the one with each of the other, summed over the rows. */
function addSums(
  target: Float64Array,
  base: number,
  stride: number,
  down: Columns,
  across: Columns,
  from: number,
  end: number,
): void {
  const { values: left, size: height } = down;
  const { values: right, size: width } = across;
  const isSquare = down === across;
  for (let row = 0; row < height; row++) {
    const last = isSquare ? row : width - 1;
    for (let column = 0; column <= last; column++) {
      let sum = 0;
      let [one, other] = [from * height + row, from * width + column];
      for (let at = from; at < end; at++) {
        sum += left[one]! * right[other]!;
        one += height;
        other += width;
      }
      target[base + row * stride + column]! += sum;
      if (isSquare && column < row) target[base + column * stride + row]! += sum;
    }
  }
}

/** Adds the products of two rows with one another, both ways round, so that the sum stays symmetric. */
export function addNeighbours(
  target: Float64Array,
  layout: BlockLayout,
  data: RowValues,
  first: number,
  second: number,
): void {
  const { terms, tail } = data;
  terms.forEach((one, term) => {
    const level = layout.termStart[term]! + one.grouping.codes[first]!;
    const later = layout.termStart[term]! + one.grouping.codes[second]!;
    terms.forEach((other, facing) => {
      const met = layout.termStart[facing]! + other.grouping.codes[second]!;
      const [a, b] = [first * one.size, second * other.size];
      if (met >= level) {
        const base = blockAt(layout, met, level);
        addOuter(target, base, blockStride(layout, level), other.values, b, other.size, one.values, a, one.size);
      }
      if (met <= level) {
        const base = blockAt(layout, level, met);
        addOuter(target, base, blockStride(layout, met), one.values, a, one.size, other.values, b, other.size);
      }
    });
    const width = layout.tail;
    const crossed = (column: number, row: number, facing: number) =>
      addOuter(
        target,
        tailAt(layout, column),
        blockStride(layout, column),
        tail,
        facing * width,
        width,
        one.values,
        row * one.size,
        one.size,
      );
    crossed(level, first, second);
    crossed(later, second, first);
  });
  const [a, b, width] = [first * layout.tail, second * layout.tail, layout.tail];
  addOuter(target, cornerAt(layout), layout.denseSize, tail, a, width, tail, b, width);
  addOuter(target, cornerAt(layout), layout.denseSize, tail, b, width, tail, a, width);
}

/**
 * Copies the lower triangle of the dense square to the upper: blocks on the diagonal are then whole, as those of
 * panels.
 */
export function mirrorDense(target: Float64Array, layout: BlockLayout): void {
  const { denseStart, denseSize } = layout;
  for (let row = 0; row < denseSize; row++) {
    for (let column = 0; column < row; column++) {
      target[denseStart + column * denseSize + row] = target[denseStart + row * denseSize + column]!;
    }
  }
}

function addOuter(
  target: Float64Array,
  base: number,
  stride: number,
  down: Float64Array,
  downAt: number,
  height: number,
  across: Float64Array,
  acrossAt: number,
  width: number,
): void {
  for (let row = 0; row < height; row++) {
    const factor = down[downAt + row]!;
    const start = base + row * stride;
    for (let column = 0; column < width; column++) target[start + column]! += factor * across[acrossAt + column]!;
  }
}
