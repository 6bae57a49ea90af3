import { checkedResult } from '../../checked-input.js';
import type { LineWithout } from './deming.js';
import { uncertaintyOfLeftOut } from './left-out-lines.js';
import { type UncertainPairs, type YorkLine, york } from './york.js';
import { yorkWithoutEach } from './york-without-each.js';

export interface YorkLineByGroups extends YorkLine {
  readonly degreesOfFreedom: number;
  /** Standard deviation of y about the line, each pair alike, √(Σ(y − line)²/(n − 2)). */
  readonly scatter: number;
  readonly leftOut: readonly LineWithout[];
}

/**
 * York's line where pairs belong together, such as those of one wall: the uncertainties of the values weigh them, and the
 * uncertainty of the line comes from leaving out a group at a time, so that what pairs of a group share, and whatever the stated
 * uncertainties leave out, is in it.
 *
 * @param groups the group of each pair
 * @throws StatisticsError `too-few` below three groups, or as `york`
 * @example
 * const errors = [0.1, 0.1, 0.1, 0.1, 0.1, 0.1];
 * const pairs = { x: [1, 2, 3, 4, 5, 6], y: [2.1, 3.9, 6.2, 7.8, 10.1, 12.2], uncertaintyX: errors, uncertaintyY: errors };
 * yorkByGroups(pairs, ['a', 'a', 'b', 'b', 'c', 'c']).slope // 2.023
 * @source York et al. 2004 (see `york`); Quenouille 1956, Biometrika 43:353-360, for the jackknife (both from memory)
 */
export function yorkByGroups(
  pairs: UncertainPairs,
  groups: readonly string[],
  { level = 0.95 }: { readonly level?: number } = {},
): YorkLineByGroups {
  const where = 'yorkByGroups';
  const line = york(pairs, { level });
  const leftOut = yorkWithoutEach(pairs, groups);
  const { slope, intercept, centre, n } = line;
  const lines = leftOut.map((one) => ({
    slope: one.slope,
    level: one.intercept + one.slope * centre.x - centre.y,
  }));
  const squares = pairs.x.reduce((sum, x, index) => sum + ((pairs.y[index] as number) - intercept - slope * x) ** 2, 0);
  return checkedResult(where, {
    ...line,
    ...uncertaintyOfLeftOut(where, { slope, intercept, centreX: centre.x }, lines, level),
    scatter: Math.sqrt(squares / (n - 2)),
    leftOut,
  });
}
