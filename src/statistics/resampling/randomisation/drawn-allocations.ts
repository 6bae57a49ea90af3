import { integerBelow } from '../random/integer-below.js';
import { type RandomStream, randomStream } from '../random/random-stream.js';
import type { AllocationSums } from './all-allocations.js';
import type { CentredBlock } from './centred-blocks.js';

/** Allocations drawn at random from a stream of the seed, all equally likely, with the observed allocation as the first. */
export function drawnAllocations(
  blocks: readonly CentredBlock[],
  draws: number,
  seed: number,
  index = 0,
): AllocationSums {
  const stream = randomStream(seed, index);
  const sums = new Float64Array(draws + 1);
  const overlaps = new Int32Array(draws + 1);
  for (const block of blocks) addObserved(block, sums, overlaps);
  const orders = blocks.map((block) => Int32Array.from(block.centred, (_, unit) => unit));
  for (let draw = 1; draw <= draws; draw++) {
    for (const [at, block] of blocks.entries()) addDraw(block, orders[at] as Int32Array, stream, draw, sums, overlaps);
  }
  return { sums, overlaps };
}

function addObserved({ centred, chosen }: CentredBlock, sums: Float64Array, overlaps: Int32Array): void {
  for (let unit = 0; unit < chosen; unit++) sums[0] = (sums[0] as number) + (centred[unit] as number);
  overlaps[0] = (overlaps[0] as number) + chosen;
}

/** The first steps of a shuffle; the order may start anywhere, so it is never put back. */
function addDraw(
  { centred, observed, chosen }: CentredBlock,
  order: Int32Array,
  stream: RandomStream,
  draw: number,
  sums: Float64Array,
  overlaps: Int32Array,
): void {
  let sum = 0;
  let overlap = 0;
  for (let step = 0; step < chosen; step++) {
    const other = step + integerBelow(stream, order.length - step);
    const unit = order[other] as number;
    order[other] = order[step] as number;
    order[step] = unit;
    sum += centred[unit] as number;
    overlap += observed[unit] as number;
  }
  sums[draw] = (sums[draw] as number) + sum;
  overlaps[draw] = (overlaps[draw] as number) + overlap;
}
