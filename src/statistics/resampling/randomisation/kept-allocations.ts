import { StatisticsError } from '../../statistics-error.js';
import { type AllocationSums, allAllocations } from './all-allocations.js';
import { type AllocatedGroups, unitsInBlocks } from './allocated-groups.js';
import { type CentredBlocks, centredBlocks } from './centred-blocks.js';
import { drawnAllocations } from './drawn-allocations.js';
import { observedSum } from './shift-limits.js';

/**
 * Which allocations could have been made where others were drawn again: those whose groups differ by no more than this in values that were
 * known beforehand (rerandomisation; Morgan and Rubin 2012, Ann. Stat. 40:1263–1282).
 */
export interface AllocationConstraint {
  /** Of the same units, in the same order and blocks as the responses. */
  readonly values: AllocatedGroups;
  /** In the unit of the values; of blocks, the difference inside them. */
  readonly mostDifference: number;
}

interface ReadyConstraint {
  readonly ready: CentredBlocks;
  /** Of the sum that the difference is made of. */
  readonly mostSum: number;
}

/** @throws StatisticsError `lengths-differ`, `out-of-range` for a limit below 0 or an observed allocation that would have been drawn again */
export function readyConstraint(
  { values, mostDifference }: AllocationConstraint,
  groups: CentredBlocks,
): ReadyConstraint {
  const where = 'randomisationTest';
  const ready = centredBlocks(unitsInBlocks(values));
  const isAlike = (one: CentredBlocks, other: CentredBlocks) =>
    one.blocks.length === other.blocks.length &&
    one.blocks.every(
      ({ centred, chosen }, at) =>
        centred.length === other.blocks[at]?.centred.length && chosen === other.blocks[at]?.chosen,
    );
  if (!isAlike(ready, groups))
    throw new StatisticsError(where, 'lengths-differ', 'needs values of the constraint for the same units and blocks');
  if (!(mostDifference >= 0 && Number.isFinite(mostDifference)))
    throw new StatisticsError(where, 'out-of-range', `needs a largest difference of 0 or more, got ${mostDifference}`);
  // Sums in another order differ by rounding.
  const mostSum = mostDifference * ready.weight * (1 + 1e-10) + 1e-12 * largestOf(ready);
  const observed = Math.abs(observedSum(ready));
  if (observed > mostSum)
    throw new StatisticsError(
      where,
      'out-of-range',
      `needs an observed allocation that its constraint allows, got a difference of ${observed / ready.weight}`,
    );
  return { ready, mostSum };
}

/** Of all allocations, those that the constraint allows. */
export function allKept(ready: CentredBlocks, constraint: ReadyConstraint): AllocationSums {
  const allowed = allAllocations(constraint.ready.blocks).sums;
  return kept(allAllocations(ready.blocks), allowed, constraint.mostSum, 0);
}

/** A constraint that hardly any allocation meets takes as long as this many times the draws. */
const mostRounds = 40;
/** With fewer, a p-value has too little to stand on. */
const fewestKept = 999;

/** Draws until enough allocations meet the constraint, the observed one first. */
export function drawnKept(
  ready: CentredBlocks,
  constraint: ReadyConstraint,
  draws: number,
  seed: number,
): AllocationSums {
  const rounds: AllocationSums[] = [];
  let count = 0;
  for (let round = 0; round < mostRounds && count <= draws; round++) {
    const sums = drawnAllocations(ready.blocks, draws, seed, round);
    // The same seed draws the same units.
    const allowed = drawnAllocations(constraint.ready.blocks, draws, seed, round).sums;
    const one = kept(sums, allowed, constraint.mostSum, round === 0 ? 0 : 1);
    rounds.push(one);
    count += one.sums.length;
  }
  if (count - 1 < Math.min(fewestKept, draws))
    throw new StatisticsError(
      'randomisationTest',
      'too-few',
      `needs more allocations that the constraint allows, got ${count - 1} in ${mostRounds * draws} draws; widen it`,
    );
  const whole: AllocationSums = { sums: new Float64Array(count), overlaps: new Int32Array(count) };
  let at = 0;
  for (const { sums, overlaps } of rounds) {
    whole.sums.set(sums, at);
    whole.overlaps.set(overlaps, at);
    at += sums.length;
  }
  return { sums: whole.sums.subarray(0, draws + 1), overlaps: whole.overlaps.subarray(0, draws + 1) };
}

function kept(
  { sums, overlaps }: AllocationSums,
  allowed: Float64Array,
  mostSum: number,
  from: number,
): AllocationSums {
  const isKept = (_: number, at: number) => at >= from && Math.abs(allowed[at] ?? 0) <= mostSum;
  return { sums: sums.filter(isKept), overlaps: overlaps.filter(isKept) };
}

function largestOf({ blocks }: CentredBlocks): number {
  let largest = 0;
  for (const { centred } of blocks) for (const value of centred) largest = Math.max(largest, Math.abs(value));
  return largest;
}
