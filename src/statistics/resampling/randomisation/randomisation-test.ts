import { checkedResult, checkLevel } from '../../checked-input.js';
import type { Interval } from '../../interval.js';
import type { Inversion } from '../../numerics/inversion.js';
import { StatisticsError } from '../../statistics-error.js';
import { type AllocationSums, allAllocations } from './all-allocations.js';
import { type AllocatedGroups, designOf, type TreatedAndUntreated, unitsInBlocks } from './allocated-groups.js';
import type { AllocationDesign } from './allocation-design.js';
import { type CentredBlocks, centredBlocks } from './centred-blocks.js';
import { countAllocations, hasAtMost } from './count-allocations.js';
import { drawnAllocations } from './drawn-allocations.js';
import { type AllocationConstraint, allKept, drawnKept, readyConstraint } from './kept-allocations.js';
import { observedSum, shiftLimits } from './shift-limits.js';
import { smallestPossibleP } from './smallest-possible-p.js';

export interface RandomisationOptions {
  /** Any whole number; used only when allocations are drawn rather than all looked at. */
  readonly seed: number;
  /** Confidence level of the interval as a fraction; 0.95 unless told. */
  readonly level?: number;
  /** Whether the interval is that of the mid-p value or of the p-value; `mid-p` unless told. */
  readonly inversion?: Inversion;
  /** Look at every allocation while there are no more than this; 1,000,000 unless told. */
  readonly exactUpTo?: number;
  /** How many allocations to draw beyond that; 99,999 unless told. */
  readonly draws?: number;
  /** Where allocations with too large a difference beforehand were drawn again: the test looks at no such allocation either. */
  readonly constraint?: AllocationConstraint;
}

export interface RandomisationResult {
  readonly kind: 'randomisation';
  readonly design: AllocationDesign['kind'];
  /** Treated less untreated; in blocks the differences inside them, weighted by nt nc / (nt + nc). */
  readonly estimate: number;
  /** Two-sided, by the absolute difference, ties counted. */
  readonly pValue: number;
  /** The same with allocations as extreme as the observed one counted half; leaves its guarantee for less caution. */
  readonly midPValue: number;
  /**
   * Shifts not rejected. Absent where the design cannot reject any at this level: where `smallestP`, or half of it for the
   * mid-p value, is too large.
   */
  readonly interval?: Interval;
  /** How often such intervals hold a constant shift when nothing ties; absent without interval or when drawing. */
  readonly attainedLevel?: number;
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
 * Randomisation (permutation) test of treated against untreated units: the p-value is the share of all possible allocations
 * whose absolute difference is at least the observed one. Assumes only that the treatment was allocated by chance as the kind
 * says. The interval adds that it shifts every unit alike: it holds every constant shift that is not rejected, by the mid-p
 * value unless told otherwise, since eight units allow coarse steps only. Four against four then keep 94.3 % for 95 (by the
 * p-value 97.1), two blocks of two against two 94.4 (by the p-value there is none). Four pairs have no 95 % interval of either
 * kind: the most extreme of their 16 allocations and its mirror have a mid-p value of 1/16.
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
 *   `not-finite`, `lengths-differ` for a constraint of other units, `out-of-range` for the level, the draws and a constraint that the observed allocation breaks
 * @example
 * randomisationTest(
 *   { kind: 'complete', treated: [-3.1, -1.8, -2.6, -2.2], untreated: [-1.2, -2.0, -0.6, -1.4] },
 *   { seed: 1 },
 * ).pValue // 0.05714285714285714, 4 allocations in 70
 */
export function randomisationTest(groups: AllocatedGroups, options: RandomisationOptions): RandomisationResult {
  const { seed, level = 0.95, inversion = 'mid-p', exactUpTo = 1_000_000, draws = 99_999 } = options;
  checkLevel('randomisationTest', level);
  const units = unitsInBlocks(groups);
  const ready = centredBlocks(units);
  checkReady(ready, largestOf(units));
  const design = designOf(groups);
  const exact = hasAtMost(exactUpTo, design);
  if (!exact) checkDraws(draws);
  const keptBy = (one: ReturnType<typeof readyConstraint>) =>
    exact ? allKept(ready, one) : drawnKept(ready, one, draws, seed);
  const { constraint } = options;
  const allocations =
    constraint === undefined
      ? exact
        ? allAllocations(ready.blocks)
        : drawnAllocations(ready.blocks, draws, seed)
      : keptBy(readyConstraint(constraint, ready));
  const drawn = allocations.sums.length - 1;
  const { atLeast, beyond } = countAsExtreme(allocations, ready, units);
  const pValue = atLeast / allocations.sums.length;
  const limits = shiftLimits(allocations, ready, level, inversion);
  return checkedResult('randomisationTest', {
    kind: 'randomisation',
    design: groups.kind,
    estimate: observedSum(ready) / ready.weight,
    pValue,
    midPValue: (atLeast + beyond) / 2 / allocations.sums.length,
    ...(limits && { interval: { level, lower: limits.lower, upper: limits.upper } }),
    ...(limits && exact && { attainedLevel: limits.attainedLevel }),
    smallestP: exact ? smallestOf(design, constraint && allocations.sums.length) : 1 / (drawn + 1),
    computation: exact
      ? { kind: 'exact', allocations: allocations.sums.length }
      : {
          kind: 'monte-carlo',
          seed,
          draws: drawn,
          pValueStandardError: Math.sqrt((pValue * (1 - pValue)) / drawn),
          ...(limits?.standardErrors && { limitStandardErrors: limits.standardErrors }),
        },
    n: { treated: countOf(units, 'treated'), untreated: countOf(units, 'untreated') },
  });
}

/** A constraint on the size of a difference allows an allocation and its mirror, or neither. */
function smallestOf(design: AllocationDesign, kept: number | undefined): number {
  const smallest = smallestPossibleP(design);
  return kept === undefined ? smallest : Math.min(1, (smallest * Number(countAllocations(design))) / kept);
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

/** Allocations at least as extreme as the observed one, and those beyond it. */
function countAsExtreme({ sums }: AllocationSums, ready: CentredBlocks, units: readonly TreatedAndUntreated[]) {
  const observed = Math.abs(observedSum(ready));
  const rounding = 1e-10 * observed + 16 * Number.EPSILON * largestOf(units) * ready.fullOverlap;
  let atLeast = 0;
  let beyond = 0;
  for (const sum of sums) {
    if (Math.abs(sum) >= observed - rounding) atLeast++;
    if (Math.abs(sum) > observed + rounding) beyond++;
  }
  return { atLeast, beyond };
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
