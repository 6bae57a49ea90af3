import type { EstimatePair } from '../../statistics/index.js';

/** A wall of a block, by its side, change and before value. */
export interface WallOfBlock {
  readonly isTreated: boolean;
  readonly change: number;
  readonly before: number;
}

/**
 * The difference inside blocks and the treated walls' mean before value, as correlated estimates: least squares of change and
 * of before value on arm and block, with the covariance of their residuals. The blocks are taken as given, as in the difference itself.
 *
 * @returns nothing where no degree of freedom is left
 * @source Searle 1971, Linear Models, for two outcomes on the same terms (from memory)
 */
export function relativeInBlocks(blocks: readonly (readonly WallOfBlock[])[]): EstimatePair | undefined {
  const walls = blocks.flat();
  const treated = walls.filter(({ isTreated }) => isTreated);
  const degreesOfFreedom = walls.length - blocks.length - 1;
  if (degreesOfFreedom < 1) return undefined;
  const arm = insideBlocks(blocks, ({ isTreated }) => Number(isTreated));
  const changes = insideBlocks(blocks, ({ change }) => change);
  const befores = insideBlocks(blocks, ({ before }) => before);
  const spread = product(arm, arm);
  const residuals = (values: readonly number[]) => {
    const slope = product(arm, values) / spread;
    return values.map((value, at) => value - slope * (arm[at] ?? 0));
  };
  const [ofChange, ofBefore] = [residuals(changes), residuals(befores)];
  const perFreedom = (one: readonly number[], other: readonly number[]) => product(one, other) / degreesOfFreedom;
  // The weights of the difference, the arm inside blocks over its squares, sum to 1 over the treated walls.
  const shared = 1 / treated.length;
  return {
    numerator: product(arm, changes) / spread,
    denominator: treated.reduce((sum, { before }) => sum + before, 0) / treated.length,
    numeratorVariance: perFreedom(ofChange, ofChange) / spread,
    denominatorVariance: perFreedom(ofBefore, ofBefore) * shared,
    covariance: perFreedom(ofChange, ofBefore) * shared,
    degreesOfFreedom,
  };
}

/** Each wall's number less its block's mean. */
function insideBlocks(
  blocks: readonly (readonly WallOfBlock[])[],
  numberOf: (wall: WallOfBlock) => number,
): readonly number[] {
  return blocks.flatMap((walls) => {
    const level = walls.reduce((sum, wall) => sum + numberOf(wall), 0) / walls.length;
    return walls.map((wall) => numberOf(wall) - level);
  });
}

function product(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, at) => sum + value * (other[at] ?? 0), 0);
}
