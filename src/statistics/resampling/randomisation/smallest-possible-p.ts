import { type AllocationDesign, blockSizes, isInformative } from './allocation-design.js';
import { countAllocations } from './count-allocations.js';

/**
 * The smallest two-sided p-value that a randomisation test of this design can reach, whatever the data: one allocation in
 * all of them, or two where every block is split evenly, for then the mirrored allocation has the same absolute difference.
 *
 * @throws StatisticsError `out-of-range` unless all counts are whole and not negative
 * @example smallestPossibleP({ kind: 'complete', treated: 3, untreated: 3 }) // 0.1
 */
export function smallestPossibleP(design: AllocationDesign): number {
  const allocations = Number(countAllocations(design));
  const even = blockSizes(design)
    .filter(isInformative)
    .every(({ treated, untreated }) => treated === untreated);
  return Math.min(1, (even ? 2 : 1) / allocations);
}
