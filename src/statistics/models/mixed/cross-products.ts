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
  const { terms, tail } = data;
  for (let term = 0; term < terms.length; term++) {
    const { size, values, grouping } = terms[term]!;
    const column = layout.termStart[term]! + grouping.codes[row]!;
    const stride = blockStride(layout, column);
    for (let other = term; other < terms.length; other++) {
      const facing = terms[other]!;
      const base = blockAt(layout, layout.termStart[other]! + facing.grouping.codes[row]!, column);
      addOuter(target, base, stride, facing.values, row * facing.size, facing.size, values, row * size, size);
    }
    addOuter(target, tailAt(layout, column), stride, tail, row * layout.tail, layout.tail, values, row * size, size);
  }
  const at = row * layout.tail;
  addOuter(target, cornerAt(layout), layout.denseSize, tail, at, layout.tail, tail, at, layout.tail);
}

/**
 * Adds the products of every row with itself. Rows of the same levels that follow one another are added up first, so that only where the
 * levels change their places have to be looked for.
 */
export function addSquares(target: Float64Array, layout: BlockLayout, data: RowValues, rows: number): void {
  const run = rowRun(data.terms, layout.tail);
  for (let row = 0; row < rows; row++) {
    if (row > 0 && !isSameCell(data.terms, row)) endRun(target, layout, data.terms, row - 1, run);
    addToRun(run, data, row);
  }
  if (rows > 0) endRun(target, layout, data.terms, rows - 1, run);
}

/** A row's numbers, those of the terms before those of the tail, and the lower triangle of the sum of their products. */
interface RowRun {
  /** Where the numbers of each term begin. */
  readonly starts: readonly number[];
  readonly tailStart: number;
  readonly numbers: Float64Array;
  readonly sums: Float64Array;
}

function rowRun(terms: readonly ScaledTerm[], tail: number): RowRun {
  const starts = terms.map((_, term) => terms.slice(0, term).reduce((sum, { size }) => sum + size, 0));
  const tailStart = terms.reduce((sum, { size }) => sum + size, 0);
  const width = tailStart + tail;
  return { starts, tailStart, numbers: new Float64Array(width), sums: new Float64Array(width * width) };
}

function isSameCell(terms: readonly ScaledTerm[], row: number): boolean {
  for (let term = 0; term < terms.length; term++) {
    const { codes } = terms[term]!.grouping;
    if (codes[row] !== codes[row - 1]) return false;
  }
  return true;
}

function addToRun({ starts, tailStart, numbers, sums }: RowRun, { terms, tail }: RowValues, row: number): void {
  const width = numbers.length;
  for (let term = 0; term < terms.length; term++) {
    const { size, values } = terms[term]!;
    for (let column = 0; column < size; column++) numbers[starts[term]! + column] = values[row * size + column]!;
  }
  const ofTail = width - tailStart;
  for (let at = 0; at < ofTail; at++) numbers[tailStart + at] = tail[row * ofTail + at]!;
  for (let one = 0; one < width; one++) {
    const number = numbers[one]!;
    for (let other = 0; other <= one; other++) sums[one * width + other]! += number * numbers[other]!;
  }
}

/** Puts the sums where they belong, and begins anew. */
function endRun(
  target: Float64Array,
  layout: BlockLayout,
  terms: readonly ScaledTerm[],
  row: number,
  run: RowRun,
): void {
  const tail = { start: run.tailStart, size: run.numbers.length - run.tailStart };
  for (let term = 0; term < terms.length; term++) {
    const { size, grouping } = terms[term]!;
    const column = layout.termStart[term]! + grouping.codes[row]!;
    const [stride, across] = [blockStride(layout, column), { start: run.starts[term]!, size }];
    for (let other = term; other < terms.length; other++) {
      const facing = terms[other]!;
      const base = blockAt(layout, layout.termStart[other]! + facing.grouping.codes[row]!, column);
      const down = { start: run.starts[other]!, size: facing.size };
      addSums(target, { base, stride }, run, { down, across });
    }
    addSums(target, { base: tailAt(layout, column), stride }, run, { down: tail, across });
  }
  addSums(target, { base: cornerAt(layout), stride: layout.denseSize }, run, { down: tail, across: tail });
  run.sums.fill(0);
}

/** Some of a row's numbers that stand together. */
interface Stretch {
  readonly start: number;
  readonly size: number;
}

function addSums(
  target: Float64Array,
  { base, stride }: { readonly base: number; readonly stride: number },
  { numbers: { length: width }, sums }: RowRun,
  { down, across }: { readonly down: Stretch; readonly across: Stretch },
): void {
  for (let row = 0; row < down.size; row++) {
    for (let column = 0; column < across.size; column++) {
      const [one, other] = [down.start + row, across.start + column];
      target[base + row * stride + column]! += one < other ? sums[other * width + one]! : sums[one * width + other]!;
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
