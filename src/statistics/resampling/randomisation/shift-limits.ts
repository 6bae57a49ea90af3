import type { Inversion } from '../../numerics/inversion.js';
import { kthSmallest } from '../kth-smallest.js';
import type { AllocationSums } from './all-allocations.js';
import type { CentredBlocks } from './centred-blocks.js';

/** The ends of a set of shifts that the test does not reject. */
export interface ShiftLimits {
  readonly lower: number;
  readonly upper: number;
  /** The share of allocations whose interval would hold a constant shift, were no responses tied. */
  readonly attainedLevel: number;
  /** How far each limit moves by chance when the allocations are a random sample; absent where that is unbounded. */
  readonly standardErrors?: { readonly lower: number; readonly upper: number };
}

/**
 * The constant shifts of the treated that the randomisation test does not reject, found exactly.
 *
 * Take the shift d off the treated responses: the observed difference s becomes s - d, that of another allocation a - b d,
 * where a is its difference of the responses and b its difference of the observed treatment (1 or 0), |b| <= 1.
 * It counts against the shift when |a - b d| >= |s - d|, that is for d between (s - a) / (1 - b) and (s + a) / (1 + b),
 * an interval that always holds s. So p(d) counts the intervals that hold d, falls away on either side of s, and the limits
 * are order statistics of the ends. Where b is 1 or -1 the allocation counts against every shift, always as an equal: these
 * are the ones that the mid-p value counts half.
 *
 * @returns absent where so many allocations count against every shift that none can be rejected at the level
 */
export function shiftLimits(
  allocations: AllocationSums,
  ready: CentredBlocks,
  level: number,
  inversion: Inversion,
): ShiftLimits | undefined {
  const ends = endsOf(allocations, ready);
  const count = allocations.sums.length;
  const alpha = 1 - level;
  const equals = ends.lower.reduce((sum, end) => sum + Number(end === Number.NEGATIVE_INFINITY), 0);
  const rank = mostRejected(alpha * count, equals, inversion);
  if (rank >= count) return undefined;
  const lower = kthSmallest(ends.lower, rank);
  const upper = -kthSmallest(ends.negatedUpper, rank);
  if (!Number.isFinite(lower) || !Number.isFinite(upper)) return undefined;
  const wobble = Math.ceil(Math.sqrt(count * alpha * level));
  const standardErrors = {
    lower: halfSpread(ends.lower, rank, wobble),
    upper: halfSpread(ends.negatedUpper, rank, wobble),
  };
  // Allocations come one by one, or with their mirror.
  const step = ready.mirrored ? 2 : 1;
  const attainedLevel = 1 - (step * Math.floor(rank / step)) / count;
  const bounded = Number.isFinite(standardErrors.lower) && Number.isFinite(standardErrors.upper);
  return { lower, upper, attainedLevel, ...(bounded && { standardErrors }) };
}

/**
 * A shift is rejected while no more allocations than this count against it. The product of level and count is meant as exact
 * arithmetic: 0.1 of 10 is 1, although 1 - 0.9 is a little less than 0.1.
 */
function mostRejected(share: number, equals: number, inversion: Inversion): number {
  return inversion === 'p-value'
    ? Math.floor(share * (1 + 1e-12) + 1e-12)
    : Math.ceil((share + equals / 2) * (1 - 1e-12) - 1e-12) - 1;
}

/** Half the distance between the order statistics one binomial standard deviation to either side. */
function halfSpread(values: Float64Array, rank: number, wobble: number): number {
  if (rank < wobble || rank + wobble >= values.length) return Number.POSITIVE_INFINITY;
  return (kthSmallest(values, rank + wobble) - kthSmallest(values, rank - wobble)) / 2;
}

interface Ends {
  readonly lower: Float64Array;
  readonly negatedUpper: Float64Array;
}

function endsOf({ sums, overlaps }: AllocationSums, ready: CentredBlocks): Ends {
  const observed = observedSum(ready);
  const lower = new Float64Array(sums.length);
  const negatedUpper = new Float64Array(sums.length);
  for (let at = 0; at < sums.length; at++) {
    const overlap = overlaps[at] as number;
    const sum = sums[at] as number;
    if (overlap === ready.fullOverlap || (overlap === 0 && ready.mirrored)) {
      lower[at] = Number.NEGATIVE_INFINITY;
      negatedUpper[at] = Number.NEGATIVE_INFINITY;
    } else {
      // Numerators and denominators are left multiplied by the weight.
      const treatment = overlap - ready.expectedOverlap;
      const one = (observed - sum) / (ready.weight - treatment);
      const other = (observed + sum) / (ready.weight + treatment);
      lower[at] = Math.min(one, other);
      negatedUpper[at] = -Math.max(one, other);
    }
  }
  return { lower, negatedUpper };
}

/** The observed allocation's sum: in every block the drawn units stand first. */
export function observedSum({ blocks }: CentredBlocks): number {
  return blocks.reduce((sum, { centred, chosen }) => {
    return sum + centred.subarray(0, chosen).reduce((inside, value) => inside + value, 0);
  }, 0);
}
