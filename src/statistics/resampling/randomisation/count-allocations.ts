import { StatisticsError } from '../../statistics-error.js';
import { type AllocationDesign, type BlockSizes, blockSizes } from './allocation-design.js';

/**
 * In how many ways the treatment could have been allocated: the product over blocks of the binomial coefficients.
 *
 * @throws StatisticsError `out-of-range` unless all counts are whole and not negative
 * @example countAllocations({ kind: 'complete', treated: 12, untreated: 12 }) // 2704156n
 */
export function countAllocations(design: AllocationDesign): bigint {
  return blockSizes(design).reduce((product, block) => product * waysInside(block), 1n);
}

function waysInside({ treated, untreated }: BlockSizes): bigint {
  for (const size of [treated, untreated]) {
    if (!Number.isSafeInteger(size) || size < 0) {
      throw new StatisticsError('countAllocations', 'out-of-range', `needs whole counts of 0 or more, got ${size}`);
    }
  }
  const all = BigInt(treated + untreated);
  const chosen = BigInt(Math.min(treated, untreated));
  let ways = 1n;
  for (let step = 1n; step <= chosen; step++) ways = (ways * (all - chosen + step)) / step;
  return ways;
}

/** Whether a design has no more allocations than the limit, found without counting further than that. */
export function hasAtMost(limit: number, design: AllocationDesign): boolean {
  let count = 1;
  for (const { treated, untreated } of blockSizes(design)) {
    const chosen = Math.min(treated, untreated);
    const left = Math.max(treated, untreated);
    let ways = 1;
    for (let step = 1; step <= chosen && count * ways <= limit; step++) ways = (ways * (left + step)) / step;
    count *= Math.round(ways);
    if (count > limit) break;
  }
  return count <= limit;
}
