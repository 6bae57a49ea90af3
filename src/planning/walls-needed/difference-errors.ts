import { binomial } from '../../statistics/index.js';
import { PlanningError } from '../planning-error.js';
import {
  type ChangeVariance,
  changeVariance,
  readInBoth,
  type Sampling,
  type Spreads,
  totalVariance,
  varianceInside,
  varianceOfHouse,
} from './change-variance.js';
import { type IntervalLaw, studentLaw, welchLaw } from './interval-law.js';
import { checkDesign, type PlannedDesign, wallsInGroup } from './planned-design.js';

/** A comparison as planned. */
export interface PlannedComparison {
  readonly design: PlannedDesign;
  readonly spreads: Spreads;
  readonly sampling: Sampling;
  /** The chance that a wall is lost before its after readings; of houses, that a whole house is. */
  readonly dropOut: number;
  /** The chance that a wall is not read on a visit; 0 unless told. */
  readonly missedVisits?: number;
  readonly level: number;
}

/** The error of the difference and of its interval, for one number of walls that may be left. */
interface DifferenceError {
  readonly probability: number;
  readonly standardError: number;
  readonly law: IntervalLaw;
}

/** The cases in which there is an interval; what they lack to 1 is the chance that too few walls are left for one. */
export type DifferenceErrors = readonly DifferenceError[];

/**
 * The error of treated less untreated walls' change, in closed form for every number of walls that drop-out may leave.
 *
 * - complete: σ² (1/nt + 1/nc), Welch's interval;
 * - pairs: 2 (σ² − r σ²walls) / n, Student's over pair differences;
 * - blocks: (σ² − r σ²walls) / Σ nt nc / (nt + nc), least squares with N − blocks − 1 degrees of freedom;
 * - houses: as complete, with (r σ²walls + (σ² − r σ²walls) / m) of each house.
 *
 * A pair that loses a wall is lost; a wall left alone in its block is, too, as in an opinion. With missed visits walls vary unlike, and this
 * is an approximation.
 *
 * @throws PlanningError `out-of-range`; `not-possible` for two walls, whose visits are the sample
 */
export function differenceErrors(planned: PlannedComparison): DifferenceErrors {
  const where = 'differenceErrors';
  const { design, dropOut, missedVisits = 0, level } = planned;
  checkDesign(where, design);
  if (!(dropOut >= 0 && dropOut < 1))
    throw new PlanningError(where, 'out-of-range', `needs a drop-out from 0 to below 1, got ${dropOut}`);
  if (!(level > 0.5 && level < 1))
    throw new PlanningError(where, 'out-of-range', `needs a level between 0.5 and 1, got ${level}`);
  const variance = changeVariance(planned.spreads, planned.sampling, missedVisits);
  checkCorrelation(where, design, variance.correlation);
  // A wall that was never read in a window is lost, too; a house has others.
  const lost = design.kind === 'houses' ? dropOut : 1 - (1 - dropOut) * readInBoth(planned.sampling, missedVisits);
  const errors = joined(errorsOf(design, variance, lost, level), mostErrors[design.kind]);
  if (errors.some(({ standardError }) => !(standardError > 0)))
    throw new PlanningError(where, 'not-possible', 'needs walls that differ by themselves: every spread is 0');
  return errors;
}

/** Walls of one group cannot all vary against each other by as much as two can. */
function checkCorrelation(where: string, design: PlannedDesign, correlation: number): void {
  const size = wallsInGroup(design);
  if (size < 2 || correlation >= -1 / (size - 1)) return;
  throw new PlanningError(
    where,
    'out-of-range',
    `needs a correlation of at least -1/${size - 1} between ${size} walls, got ${correlation}`,
  );
}

/** An error whose law is computed only where it is needed. */
interface PossibleError {
  readonly probability: number;
  /** Of the difference. */
  readonly variance: number;
  readonly law: () => IntervalLaw;
}

/** So many errors at most are looked at one by one: laws of two unequal arms take the longest. */
const mostErrors = { complete: 10, houses: 10, pairs: 60, blocks: 60, 'two-walls': 1 } as const;

/**
 * Errors with nearly the same variance, taken together: they have their mean variance and the law of the likeliest among them. The chances
 * are smooth in both.
 */
function joined(errors: readonly PossibleError[], most: number): DifferenceErrors {
  const inOrder = errors.toSorted((one, other) => one.variance - other.variance);
  const whole = errors.reduce((sum, { probability }) => sum + probability, 0);
  const groups: PossibleError[][] = [];
  let [share, group] = [0, -1];
  for (const error of inOrder) {
    const own = errors.length <= most ? groups.length : Math.floor(share * most);
    if (own === group) groups.at(-1)?.push(error);
    else groups.push([error]);
    group = own;
    share += error.probability / whole;
  }
  return groups.flatMap((members) => {
    const probability = members.reduce((sum, one) => sum + one.probability, 0);
    const variance = members.reduce((sum, one) => sum + one.probability * one.variance, 0) / probability;
    const [likeliest] = members.toSorted((one, other) => other.probability - one.probability);
    return likeliest === undefined ? [] : [{ probability, standardError: Math.sqrt(variance), law: likeliest.law() }];
  });
}

function errorsOf(
  design: PlannedDesign,
  variance: ChangeVariance,
  dropOut: number,
  level: number,
): readonly PossibleError[] {
  switch (design.kind) {
    case 'complete':
      return independentArms(design, totalVariance(variance), dropOut, level);
    case 'houses':
      return independentArms(design, varianceOfHouse(variance, design.wallsPerHouse), dropOut, level);
    case 'pairs':
      return leftOf(design.pairs, 1 - (1 - dropOut) ** 2)
        .filter(({ left }) => left >= 2)
        .map(({ left, probability }) => ({
          probability,
          variance: (2 * varianceInside(variance)) / left,
          law: () => studentLaw(left - 1, level),
        }));
    case 'blocks':
      return insideBlocks(design, varianceInside(variance), dropOut, level);
    case 'two-walls':
      throw new PlanningError(
        'differenceErrors',
        'not-possible',
        'needs several walls an arm; two walls are followed by seriesChances',
      );
  }
}

function independentArms(
  { treated, untreated }: { readonly treated: number; readonly untreated: number },
  variance: number,
  dropOut: number,
  level: number,
): readonly PossibleError[] {
  const others = leftOf(untreated, dropOut);
  return leftOf(treated, dropOut).flatMap((one) =>
    others.flatMap((other): readonly PossibleError[] => {
      // The order of the arms makes no difference to the law.
      const [few, many] = [Math.min(one.left, other.left), Math.max(one.left, other.left)];
      if (few < 2) return [];
      const probability = one.probability * other.probability;
      return [{ probability, variance: variance * (1 / few + 1 / many), law: () => welchLaw(few, many, level) }];
    }),
  );
}

interface Left {
  readonly left: number;
  readonly probability: number;
}

/** Numbers that are left more seldom than this are not looked at. */
const leastCounted = 1e-6;

function leftOf(count: number, lost: number): readonly Left[] {
  if (lost === 0) return [{ left: count, probability: 1 }];
  const kept = binomial(count, 1 - lost);
  const all = Array.from({ length: count + 1 }, (_, left) => ({ left, probability: kept.density(left) }));
  const counted = all.filter(({ probability }) => probability >= leastCounted);
  const total = counted.reduce((sum, { probability }) => sum + probability, 0);
  return counted.map(({ left, probability }) => ({ left, probability: probability / total }));
}

interface BlockDesign {
  readonly blocks: number;
  readonly treated: number;
  readonly untreated: number;
}

function insideBlocks(design: BlockDesign, variance: number, dropOut: number, level: number): readonly PossibleError[] {
  return totalsOfBlocks(design, dropOut).flatMap(({ weight, squares, probability }) => {
    // One degree of freedom goes to the difference.
    const degreesOfFreedom = squares - 1;
    if (weight === 0 || degreesOfFreedom < 1) return [];
    return [{ probability, variance: variance / weight, law: () => studentLaw(degreesOfFreedom, level) }];
  });
}

interface BlockTotal {
  /** Sum of nt nc / (nt + nc). */
  readonly weight: number;
  /** Walls less blocks. */
  readonly squares: number;
  readonly probability: number;
}

/** What the blocks add up to, by adding one block after the other: exact but for cases that hardly ever happen. */
function totalsOfBlocks({ blocks, treated, untreated }: BlockDesign, dropOut: number): readonly BlockTotal[] {
  const one = leftOf(treated, dropOut).flatMap((some) =>
    leftOf(untreated, dropOut).map((other): BlockTotal => {
      const walls = some.left + other.left;
      const isAlone = walls < 2;
      return {
        weight: isAlone ? 0 : (some.left * other.left) / walls,
        squares: isAlone ? 0 : walls - 1,
        probability: some.probability * other.probability,
      };
    }),
  );
  let totals: readonly BlockTotal[] = [{ weight: 0, squares: 0, probability: 1 }];
  for (let block = 0; block < blocks; block++) {
    const sums = new Map<string, BlockTotal>();
    for (const total of totals) {
      for (const added of one) {
        const probability = total.probability * added.probability;
        if (probability < leastCounted / 100) continue;
        const weight = total.weight + added.weight;
        const squares = total.squares + added.squares;
        const key = `${weight.toFixed(2)} ${squares}`;
        sums.set(key, { weight, squares, probability: probability + (sums.get(key)?.probability ?? 0) });
      }
    }
    totals = [...sums.values()];
  }
  const whole = totals.reduce((sum, { probability }) => sum + probability, 0);
  return totals.map((total) => ({ ...total, probability: total.probability / whole }));
}
