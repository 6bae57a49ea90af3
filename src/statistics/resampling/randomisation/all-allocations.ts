import type { CentredBlock } from './centred-blocks.js';

/** What each of many allocations adds up to. */
export interface AllocationSums {
  /** Sum of the centred responses of the drawn units. */
  readonly sums: Float64Array;
  /** How many units are drawn that were drawn in the observed allocation too. */
  readonly overlaps: Int32Array;
}

/** Every allocation once: all choices inside each block, combined over blocks. */
export function allAllocations(blocks: readonly CentredBlock[]): AllocationSums {
  const nothing: AllocationSums = { sums: new Float64Array(1), overlaps: new Int32Array(1) };
  return blocks.map(choicesInside).reduce(combined, nothing);
}

function choicesInside({ centred, observed, chosen }: CentredBlock): AllocationSums {
  const n = centred.length;
  const count = choices(n, chosen);
  const sums = new Float64Array(count);
  const overlaps = new Int32Array(count);
  let at = 0;
  const choose = (from: number, left: number, sum: number, overlap: number): void => {
    for (let unit = from; unit <= n - left; unit++) {
      const nextSum = sum + (centred[unit] as number);
      const nextOverlap = overlap + (observed[unit] as number);
      if (left > 1) {
        choose(unit + 1, left - 1, nextSum, nextOverlap);
      } else {
        sums[at] = nextSum;
        overlaps[at] = nextOverlap;
        at++;
      }
    }
  };
  choose(0, chosen, 0, 0);
  return { sums, overlaps };
}

function choices(n: number, chosen: number): number {
  let count = 1;
  for (let step = 1; step <= chosen; step++) count = (count * (n - chosen + step)) / step;
  return Math.round(count);
}

function combined(first: AllocationSums, second: AllocationSums): AllocationSums {
  const [rows, columns] = [first.sums.length, second.sums.length];
  const sums = new Float64Array(rows * columns);
  const overlaps = new Int32Array(rows * columns);
  for (let row = 0, at = 0; row < rows; row++) {
    const sum = first.sums[row] as number;
    const overlap = first.overlaps[row] as number;
    for (let column = 0; column < columns; column++, at++) {
      sums[at] = sum + (second.sums[column] as number);
      overlaps[at] = overlap + (second.overlaps[column] as number);
    }
  }
  return { sums, overlaps };
}
