import { checkedResult, checkLevel } from '../../checked-input.js';
import type { Interval } from '../../interval.js';
import { StatisticsError } from '../../statistics-error.js';
import { type AllocationSums, allAllocations } from './all-allocations.js';
import { type AllocatedGroups, designOf, type TreatedAndUntreated, unitsInBlocks } from './allocated-groups.js';
import type { AllocationDesign } from './allocation-design.js';
import { type CentredBlocks, centredBlocks } from './centred-blocks.js';
import { hasAtMost } from './count-allocations.js';
import { drawnAllocations } from './drawn-allocations.js';
import { observedSum, shiftLimits } from './shift-limits.js';
import { smallestPossibleP } from './smallest-possible-p.js';

export interface RandomisationOptions {
  /** Any whole number; used only when allocations are drawn rather than all looked at. */
  readonly seed: number;
  /** Confidence level of the interval as a fraction; 0.95 unless told. */
  readonly level?: number;
  /** Look at every allocation while there are no more than this; 1,000,000 unless told. */
  readonly exactUpTo?: number;
  /** How many allocations to draw beyond that; 99,999 unless told. */
  readonly draws?: number;
}

export interface RandomisationResult {
  readonly kind: 'randomisation';
  readonly design: AllocationDesign['kind'];
  /** Treated less untreated; in blocks the differences inside them, weighted by nt nc / (nt + nc). */
  readonly estimate: number;
  /** Two-sided, by the absolute difference, ties counted. */
  readonly pValue: number;
  /** Shifts not rejected. Absent where the design cannot reject any at this level; `smallestP` then says why. */
  readonly interval?: Interval;
  /** The smallest p that the design, or the number of draws, allows whatever the data. */
  readonly smallestP: number;
  readonly computation: RandomisationComputation;
  /** Units allocated: clusters where whole clusters were. */
  readonly n: { readonly treated: number; readonly untreated: number };
}

export type RandomisationComputation =
  | { readonly kind: 'exact'; readonly allocations: number }
  | {
      readonly kind: 'monte-carlo';
      readonly seed: number;
      readonly draws: number;
      readonly pValueStandardError: number;
      readonly limitStandardErrors?: { readonly lower: number; readonly upper: number };
    };

/**
 * Compares treated and untreated units by the allocations that chance could have made: the p-value is the share of them
 * whose absolute difference is at least the observed one, and the interval holds every constant shift that this test would
 * not reject. Assumes only that the treatment was allocated by chance as the kind says; the interval adds that it shifts
 * every unit alike.
 *
 * In clusters the unit is the cluster and answers by its mean, so that large clusters count no more than small ones.
 * For clusters allocated inside blocks, give their means as `blocked`.
 *
 * Beyond `exactUpTo` allocations it draws them: p is (count + 1) / (draws + 1) (Phipson and Smyth 2010,
 * doi:10.2202/1544-6115.1585), so never 0, and comes with its Monte Carlo standard error.
 *
 * Differences that agree to within rounding (10 digits) are ties.
 *
 * @throws StatisticsError `too-few` when no block holds both groups, `no-variation` when all responses are equal inside blocks,
 *   `not-finite`, `out-of-range` for the level and the draws
 * @example
 * randomisationTest(
 *   { kind: 'complete', treated: [-3.1, -1.8, -2.6, -2.2], untreated: [-1.2, -2.0, -0.6, -1.4] },
 *   { seed: 1 },
 * ).pValue // 0.05714285714285714, 4 allocations in 70
 */
export function randomisationTest(groups: AllocatedGroups, options: RandomisationOptions): RandomisationResult {
  const { seed, level = 0.95, exactUpTo = 1_000_000, draws = 99_999 } = options;
  checkLevel('randomisationTest', level);
  const units = unitsInBlocks(groups);
  const ready = centredBlocks(units);
  checkReady(ready, largestOf(units));
  const design = designOf(groups);
  const exact = hasAtMost(exactUpTo, design);
  if (!exact) checkDraws(draws);
  const allocations = exact ? allAllocations(ready.blocks) : drawnAllocations(ready.blocks, draws, seed);
  const pValue = countAsExtreme(allocations, ready, units) / allocations.sums.length;
  const limits = shiftLimits(allocations, ready, level);
  return checkedResult('randomisationTest', {
    kind: 'randomisation',
    design: groups.kind,
    estimate: observedSum(ready) / ready.weight,
    pValue,
    ...(limits && { interval: { level, lower: limits.lower, upper: limits.upper } }),
    smallestP: exact ? smallestPossibleP(design) : 1 / (draws + 1),
    computation: exact
      ? { kind: 'exact', allocations: allocations.sums.length }
      : {
          kind: 'monte-carlo',
          seed,
          draws,
          pValueStandardError: Math.sqrt((pValue * (1 - pValue)) / draws),
          ...(limits?.standardErrors && { limitStandardErrors: limits.standardErrors }),
        },
    n: { treated: countOf(units, 'treated'), untreated: countOf(units, 'untreated') },
  });
}

function checkReady({ blocks }: CentredBlocks, largest: number): void {
  if (blocks.length === 0) {
    const what = 'needs treated and untreated units that could have changed places, got none';
    throw new StatisticsError('randomisationTest', 'too-few', `${what}; compare without blocks or add units`);
  }
  const rounding = 8 * Number.EPSILON * largest;
  if (blocks.every(({ centred }) => centred.every((value) => Math.abs(value) <= rounding))) {
    throw new StatisticsError(
      'randomisationTest',
      'no-variation',
      'needs responses that differ, got equal ones; check the data',
    );
  }
}

function checkDraws(draws: number): void {
  if (!Number.isSafeInteger(draws) || draws < 1) {
    throw new StatisticsError(
      'randomisationTest',
      'out-of-range',
      `needs a whole number of draws from 1, got ${draws}`,
    );
  }
}

function countAsExtreme({ sums }: AllocationSums, ready: CentredBlocks, units: readonly TreatedAndUntreated[]): number {
  const observed = Math.abs(observedSum(ready));
  const threshold = observed * (1 - 1e-10) - 16 * Number.EPSILON * largestOf(units) * ready.fullOverlap;
  let count = 0;
  for (const sum of sums) if (Math.abs(sum) >= threshold) count++;
  return count;
}

function largestOf(units: readonly TreatedAndUntreated[]): number {
  let largest = 0;
  for (const { treated, untreated } of units) {
    for (const value of treated) largest = Math.max(largest, Math.abs(value));
    for (const value of untreated) largest = Math.max(largest, Math.abs(value));
  }
  return largest;
}

function countOf(units: readonly TreatedAndUntreated[], group: 'treated' | 'untreated'): number {
  return units.reduce((sum, block) => sum + block[group].length, 0);
}
