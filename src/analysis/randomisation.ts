import {
  type AllocatedGroups,
  type AllocationConstraint,
  type RandomisationComputation,
  type RandomisationResult,
  randomisationTest,
  smallestPossibleP,
} from '../statistics/index.js';
import type { AllocationMethod } from '../trial/index.js';
import type { Answer } from './answer.js';
import type { ComparisonDesign } from './comparison-design.js';
import { comparisonWords } from './comparison-words.js';
import type { MonteCarlo } from './estimate.js';
import { notEstimated } from './not-estimated.js';
import type { PrimaryOptions } from './primary-difference.js';
import type { Side, WallChange } from './wall-change.js';
import { byBlock, wallCount } from './wall-groups.js';

const id = 'randomisation';
const label = 'Randomisation (permutation) test';

export interface SeededOptions extends PrimaryOptions {
  readonly seed: number;
}

export interface RandomisationAnalysisOptions extends SeededOptions {
  /** How the treated walls came to be treated: only a lot gives this analysis its ground. */
  readonly allocation: AllocationMethod;
  /** Allocations whose sides differed by more in their before means were drawn again. */
  readonly mostBeforeDifference?: number;
}

/**
 * The primary difference judged by a randomisation (permutation) test over the allocations that could have been drawn, inside blocks and pairs where there are
 * any: exact while there are at most 1,000,000 of them, else drawn from the seed.
 *
 * The interval is inverted by the p-value, not by the mid-p value: of the analyses this one alone promises at least its level
 * on no other ground than the lot, and its interval must not leave out zero where its p-value stands above one less the level.
 * With eight walls it then holds 97 % for 95 where the mid-p value would hold 94, and some small designs have none.
 *
 * @example randomisation(design, { level: 0.95, unit: '% by mass', seed: 1, allocation: 'matched-pairs' }).estimate.pValue // 0.0004883
 */
export function randomisation(design: ComparisonDesign, options: RandomisationAnalysisOptions): Answer {
  const { level, unit, seed, allocation } = options;
  const { one, many, value, values, taken } = comparisonWords(design.walls);
  try {
    const constraint = constraintOf(design, options.mostBeforeDifference);
    if (typeof constraint === 'string')
      return { kind: 'not-estimated', notEstimated: { id, label, reason: constraint } };
    const result = randomisationTest(
      groupsOf(design, ({ change }) => change),
      {
        ...{ seed, level, inversion: 'p-value' },
        ...(constraint && { constraint }),
      },
    );
    const { computation, interval } = result;
    return {
      kind: 'estimated',
      estimate: {
        id,
        label,
        quantity: `treated ${many}’ ${value} less untreated ${many}’ ${value}`,
        unit,
        estimate: result.estimate,
        ...(interval && { interval }),
        pValue: result.pValue,
        method: `${methodOf(computation)}${intervalInWords(result, many)}`,
        assumptions: [
          groundOf(allocation, many, values),
          ...(constraint === undefined ? [] : [constraintInWords(constraint, unit)]),
          ...(interval === undefined
            ? [`no interval: this design’s smallest p-value is ${Number(result.smallestP.toPrecision(3))}`]
            : [`the interval adds that the treatment shifts every ${one} alike`]),
          ...taken,
        ],
        walls: wallCount(design.walls),
        ...monteCarloOf(computation),
      },
    };
  } catch (error) {
    return notEstimated(id, label, error, {
      'out-of-range':
        'the sides differ by more in the before means on record than the plan let pass, so the allocations that could have been drawn are unknown',
      'too-few': `there are no treated and untreated ${many} that could have changed places`,
    });
  }
}

/**
 * The smallest p-value that a randomisation test of these walls could give, whatever the data; undefined where no walls
 * could have changed places.
 *
 * @example smallestPOfDesign(design) // 0.0004883
 */
export function smallestPOfDesign(design: ComparisonDesign): number | undefined {
  const sides = new Set(design.walls.map(({ side }) => side));
  if (sides.size < 2 || design.kind === 'confounded') return undefined;
  const sizes = (walls: readonly WallChange[]) => ({
    treated: count(walls, 'treated'),
    untreated: count(walls, 'untreated'),
  });
  return smallestPossibleP(
    design.kind === 'complete'
      ? { kind: 'complete', ...sizes(design.walls) }
      : { kind: 'blocked', blocks: byBlock(design.walls).map(sizes) },
  );
}

function groupsOf(design: ComparisonDesign, numberOf: (wall: WallChange) => number): AllocatedGroups {
  const on = (walls: readonly WallChange[], side: Side) => walls.filter((wall) => wall.side === side).map(numberOf);
  const groups = (walls: readonly WallChange[]) => ({
    treated: on(walls, 'treated'),
    untreated: on(walls, 'untreated'),
  });
  return design.kind === 'complete'
    ? { kind: 'complete', ...groups(design.walls) }
    : { kind: 'blocked', blocks: byBlock(design.walls).map(groups) };
}

/** The constraint that the allocation was drawn under, or why it cannot be held to. */
function constraintOf(design: ComparisonDesign, most: number | undefined): AllocationConstraint | undefined | string {
  if (most === undefined) return undefined;
  const { many } = comparisonWords(design.walls);
  if (design.walls.some(({ before }) => before === undefined))
    return `the plan draws an allocation again by before values, and not all ${many} have one`;
  const values = groupsOf(design, ({ before = 0 }) => before);
  return { values, mostDifference: most };
}

function constraintInWords({ mostDifference }: AllocationConstraint, unit: string): string {
  return `allocations whose sides differed by more than ${Number(mostDifference.toPrecision(4))} ${unit} before were drawn again, as the plan says, and are not looked at`;
}

function count(walls: readonly WallChange[], side: Side): number {
  return walls.filter((wall) => wall.side === side).length;
}

function groundOf(allocation: AllocationMethod, many: string, values: string): string {
  return allocation === 'chosen'
    ? `that the ${many} to be treated were randomised, which they were not: it says what randomisation would have made of these ${values}`
    : `the ${many} to be treated were randomised, as the plan says`;
}

function methodOf(computation: RandomisationComputation): string {
  return computation.kind === 'exact'
    ? `randomisation test, two-sided, over all ${computation.allocations.toLocaleString('en-GB')} allocations`
    : `randomisation test, two-sided, over ${computation.draws.toLocaleString('en-GB')} drawn allocations`;
}

function intervalInWords({ attainedLevel, interval, computation }: RandomisationResult, many: string): string {
  if (interval === undefined) return '';
  const hold = `; interval of the constant shifts that its p-value does not reject: such intervals hold`;
  const level = `${computation.kind === 'exact' ? 'at least' : 'about'} ${percent(interval.level)} of the time`;
  const isCoarse = attainedLevel !== undefined && attainedLevel - interval.level >= 0.005;
  return `${hold} ${level}${isCoarse ? `, with so few ${many} ${percent(attainedLevel)}` : ''}`;
}

function percent(share: number): string {
  return `${Number((100 * share).toFixed(1))} %`;
}

function monteCarloOf(computation: RandomisationComputation): { readonly monteCarlo?: MonteCarlo } {
  if (computation.kind === 'exact') return {};
  const { seed, draws, pValueStandardError } = computation;
  return { monteCarlo: { seed, draws, pValueStandardError } };
}
