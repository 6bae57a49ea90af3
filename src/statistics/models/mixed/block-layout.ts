/**
 * Where the numbers of the cross-product matrix and of its Cholesky factor are kept.
 *
 * The matrix has a block row and column for every level of every random term, larger terms first, and at the end the
 * fixed effects and the response (the "tail"). A level of a nested term meets only the levels that it lies in, so most
 * blocks are zero and stay zero when the levels are eliminated in this order. Those "front" levels are kept as panels:
 * the level's column without its zeros, row-major and as wide as the level has effects. Once what remains is mostly
 * filled, as with crossed terms, the rest is kept as one dense square that also holds the tail.
 */
export interface BlockLayout {
  /** Effects per level, levels and first level of each term. */
  readonly termSize: readonly number[];
  readonly termStart: readonly number[];
  readonly levels: number;
  readonly levelTerm: Int32Array;
  /** Levels kept as panels come first. */
  readonly frontLevels: number;
  /** Fixed effects and response. */
  readonly tail: number;
  /** Random effects in all. */
  readonly effects: number;
  /** First random effect of each level. */
  readonly effectStart: Int32Array;
  /** First number, height, end of the rows that belong to front levels, of each panel. */
  readonly panelStart: Int32Array;
  readonly panelHeight: Int32Array;
  readonly panelFrontEnd: Int32Array;
  /** Levels that a panel meets, ascending, and the row of the panel where each begins; the panel's own level first. */
  readonly panelLevels: readonly Int32Array[];
  readonly panelRows: readonly Int32Array[];
  /** For each row of a panel from its front end on: the row of the dense square. */
  readonly panelDense: readonly Int32Array[];
  /** For each front level that a panel meets: where the panel's rows from there on begin in the panel of that level. */
  readonly panelInner: readonly (readonly Int32Array[])[];
  readonly denseStart: number;
  readonly denseSize: number;
  /** Of the dense square's rows, those that belong to levels. */
  readonly denseEffects: number;
  /** Numbers in all. */
  readonly length: number;
}

/** The rows' levels that meet in a cross-product: those of one row, or of two neighbours in a series. */
export interface Meeting {
  readonly first: Int32Array;
  readonly second: Int32Array;
}

/**
 * @param codes for each term, the level (from 0) of each row
 * @param meetings rows whose products are summed, besides each row with itself
 */
export function blockLayout(
  codes: readonly Int32Array[],
  termSize: readonly number[],
  termLevels: readonly number[],
  tail: number,
  meetings: Meeting | undefined,
): BlockLayout {
  const termStart = runningStart(termLevels);
  const levels = termLevels.reduce((sum, count) => sum + count, 0);
  const levelTerm = new Int32Array(levels);
  termStart.forEach((start, term) => {
    levelTerm.fill(term, start, start + termLevels[term]!);
  });
  const sizeOf = (level: number) => termSize[levelTerm[level]!]!;
  const effectStart = new Int32Array(levels + 1);
  for (let level = 0; level < levels; level++) effectStart[level + 1] = effectStart[level]! + sizeOf(level);

  const neighbours = filledNeighbours(codes, termStart, levels, meetings);
  const frontLevels = firstFilledTerm(neighbours, termStart, levels);
  const denseFrom = effectStart[frontLevels]!;
  const denseEffects = effectStart[levels]! - denseFrom;
  const denseSize = denseEffects + tail;

  const panelStart = new Int32Array(frontLevels);
  const panelHeight = new Int32Array(frontLevels);
  const panelFrontEnd = new Int32Array(frontLevels);
  const panelLevels: Int32Array[] = [];
  const panelRows: Int32Array[] = [];
  const panelDense: Int32Array[] = [];
  let length = 0;
  const tailAlone = Int32Array.from({ length: tail }, (_, row) => denseEffects + row);
  for (let level = 0; level < frontLevels; level++) {
    const met = Int32Array.from([level, ...neighbours[level]!]);
    const rows = new Int32Array(met.length);
    const dense: number[] = [];
    let height = 0;
    let frontEnd = 0;
    met.forEach((other, at) => {
      rows[at] = height;
      height += sizeOf(other);
      if (other < frontLevels) frontEnd = height;
      else
        for (let effect = effectStart[other]!; effect < effectStart[other + 1]!; effect++)
          dense.push(effect - denseFrom);
    });
    panelLevels.push(met);
    panelRows.push(rows);
    panelDense.push(dense.length === 0 ? tailAlone : Int32Array.from([...dense, ...tailAlone]));
    panelStart[level] = length;
    panelHeight[level] = height + tail;
    panelFrontEnd[level] = frontEnd;
    length += (height + tail) * sizeOf(level);
  }
  const panelInner = panelLevels.map((met, level) =>
    innerRows(met, level, frontLevels, { panelLevels, panelRows, panelHeight, panelStart }, sizeOf),
  );
  return {
    termSize,
    termStart,
    levels,
    levelTerm,
    frontLevels,
    tail,
    effects: effectStart[levels]!,
    effectStart,
    panelStart,
    panelHeight,
    panelFrontEnd,
    panelLevels,
    panelRows,
    panelDense,
    panelInner,
    denseStart: length,
    denseSize,
    denseEffects,
    length: length + denseSize * denseSize,
  };
}

function runningStart(counts: readonly number[]): number[] {
  let sum = 0;
  return counts.map((count) => {
    sum += count;
    return sum - count;
  });
}

/** For each level the later levels that its column meets, those that elimination fills in included, ascending. */
function filledNeighbours(
  codes: readonly Int32Array[],
  termStart: readonly number[],
  levels: number,
  meetings: Meeting | undefined,
): number[][] {
  const met = Array.from({ length: levels }, () => new Set<number>());
  const meet = (one: number, other: number) => {
    if (one < other) met[one]!.add(other);
    else if (other < one) met[other]!.add(one);
  };
  for (let term = 0; term < codes.length; term++) {
    for (let other = term; other < codes.length; other++) {
      const [mine, theirs] = [codes[term]!, codes[other]!];
      const [start, otherStart] = [termStart[term]!, termStart[other]!];
      for (let row = 0; row < mine.length && other > term; row++) {
        const repeats = row > 0 && mine[row] === mine[row - 1] && theirs[row] === theirs[row - 1];
        if (!repeats) meet(start + mine[row]!, otherStart + theirs[row]!);
      }
      meetings?.first.forEach((first, at) => {
        const second = meetings.second[at]!;
        meet(start + mine[first]!, otherStart + theirs[second]!);
        meet(start + mine[second]!, otherStart + theirs[first]!);
      });
    }
  }
  return met.map((set) => {
    const sorted = [...set].sort((a, b) => a - b);
    const next = met[sorted[0]!];
    for (const level of sorted.slice(1)) next!.add(level);
    return sorted;
  });
}

/** The first level of the first term from which on more than half of all blocks are filled. */
function firstFilledTerm(neighbours: readonly number[][], termStart: readonly number[], levels: number): number {
  const filled = (start: number) => {
    const count = neighbours.slice(start).reduce((sum, list) => sum + list.length, 0);
    const remaining = levels - start;
    return remaining > 1 && count > (remaining * (remaining - 1)) / 4;
  };
  return termStart.find(filled) ?? levels;
}

function innerRows(
  met: Int32Array,
  level: number,
  frontLevels: number,
  panels: Pick<BlockLayout, 'panelLevels' | 'panelRows' | 'panelHeight' | 'panelStart'>,
  sizeOf: (level: number) => number,
): Int32Array[] {
  const { panelLevels, panelRows, panelHeight, panelStart } = panels;
  const inner: Int32Array[] = [];
  for (let at = 1; at < met.length && met[at]! < frontLevels; at++) {
    const target = met[at]!;
    const rows = new Int32Array(panelHeight[level]! - panelRows[level]![at]!);
    let filled = 0;
    let search = 0;
    for (const other of met.subarray(at)) {
      while (panelLevels[target]![search] !== other) search++;
      for (let row = 0; row < sizeOf(other); row++) rows[filled++] = panelRows[target]![search]! + row;
    }
    const tail = rows.length - filled;
    for (let row = 0; row < tail; row++) rows[filled++] = panelHeight[target]! - tail + row;
    const [start, width] = [panelStart[target]!, sizeOf(target)];
    inner.push(rows.map((row) => start + row * width));
  }
  return inner;
}
