import { checkLevel, checkSample } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';
import { compensatedSum } from '../summaries/compensated-sum.js';
import { deviations } from '../summaries/deviations.js';
import { momentsOf } from '../summaries/moments.js';
import { judgedByT, type LevelOption, type MeanComparison } from './mean-comparison.js';

/** The units of one block, by group. A block may lack one of the groups. */
export interface BlockOfGroups {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/**
 * Difference of two groups, x less y, inside blocks: the least-squares coefficient of the group when the response is
 * explained by group and block. Written out, it is the mean of the differences inside blocks, weighted by
 * nx ny / (nx + ny). With pairs it is `paired`.
 *
 * Blocks that lack a group say nothing of the difference but lend their spread to its standard error.
 *
 * @throws StatisticsError `too-few` when no block holds both groups or no degrees of freedom are left, `no-variation`
 * @example blocked([{ x: [1], y: [3] }, { x: [2], y: [2] }, { x: [0], y: [4] }]).estimate // -2
 */
export function blocked(blocks: readonly BlockOfGroups[], options: LevelOption = {}): MeanComparison<'blocked'> {
  const level = options.level ?? 0.95;
  checkLevel('blocked', level);
  for (const [at, { x, y }] of blocks.entries()) {
    checkSample('blocked', `x of block ${at}`, x, 0);
    checkSample('blocked', `y of block ${at}`, y, 0);
  }
  const occupied = blocks.filter(({ x, y }) => x.length + y.length > 0);
  const informative = occupied.filter(({ x, y }) => x.length > 0 && y.length > 0).map(differenceInside);
  if (informative.length === 0) {
    throw new StatisticsError(
      'blocked',
      'too-few',
      'needs a block that holds both groups, got none; compare without blocks',
    );
  }
  const n = { x: countOf(occupied, 'x'), y: countOf(occupied, 'y') };
  const degreesOfFreedom = n.x + n.y - occupied.length - 1;
  if (degreesOfFreedom < 1) {
    const got = `got ${n.x + n.y} units in ${occupied.length} blocks`;
    throw new StatisticsError('blocked', 'too-few', `needs more units than blocks and groups, ${got}; add units`);
  }
  const weight = informative.reduce((sum, block) => sum + block.weight, 0);
  const estimate = informative.reduce((sum, block) => sum + block.weight * block.difference, 0) / weight;
  const variance = (squaresWithin(occupied) + squaresBetween(informative)) / degreesOfFreedom;
  const standardError = Math.sqrt(variance / weight);
  return judgedByT({
    kind: 'blocked',
    estimate,
    standardError,
    degreesOfFreedom,
    level,
    n,
  });
}

interface BlockDifference {
  readonly difference: number;
  readonly weight: number;
}

function differenceInside({ x, y }: BlockOfGroups): BlockDifference {
  return {
    difference: momentsOf(x).mean - momentsOf(y).mean,
    weight: (x.length * y.length) / (x.length + y.length),
  };
}

function countOf(blocks: readonly BlockOfGroups[], group: 'x' | 'y'): number {
  return blocks.reduce((sum, block) => sum + block[group].length, 0);
}

/** Scatter of the units around the mean of their group in their block. */
function squaresWithin(blocks: readonly BlockOfGroups[]): number {
  const cells = blocks.flatMap(({ x, y }) => [x, y]).filter((cell) => cell.length > 0);
  return cells.reduce((sum, cell) => sum + momentsOf(cell).squares, 0);
}

/** Scatter of the block differences around their weighted mean; differences equal but for rounding do not scatter. */
function squaresBetween(blocks: readonly BlockDifference[]): number {
  const largest = blocks.reduce((most, block) => Math.max(most, Math.abs(block.difference)), 0);
  const around = deviations(blocks.map(({ difference }) => difference));
  const weight = blocks.reduce((sum, block) => sum + block.weight, 0);
  const centre = blocks.reduce((sum, block, at) => sum + block.weight * around[at]!, 0) / weight;
  const squares = compensatedSum(blocks.map((block, at) => block.weight * (around[at]! - centre) ** 2));
  return squares > weight * (8 * Number.EPSILON * largest) ** 2 ? squares : 0;
}
