import { checkedResult, checkLevel } from '../../checked-input.js';
import { fisherF } from '../../distributions/fisher-f.js';
import type { Interval } from '../../interval.js';
import { StatisticsError } from '../../statistics-error.js';
import { oneWayAnalysis } from '../analysis-of-variance/one-way.js';

export interface IntraclassOfGroups {
  readonly kind: 'intraclass-of-groups';
  /** Of the total variance, the share between groups; negative where groups are more alike than chance would make them. */
  readonly estimate: number;
  readonly interval: Interval;
  readonly groups: number;
  readonly size: number;
}

/**
 * Intraclass correlation of groups of equal size, one way: how alike two readings of one wall are, beside readings of others. From the F
 * ratio of the analysis of variance, (F − 1)/(F + k − 1); exact limits where readings are normal.
 *
 * It says what further stations on the same walls are worth: n walls with k stations each weigh as n k / (1 + (k − 1) ρ) independent ones.
 *
 * @throws StatisticsError `too-few` with fewer than two groups or two values in a group, `lengths-differ` where groups differ in size,
 *   `not-finite`, `no-variation` where no group varies inside
 * @example intraclassOfGroups([[9, 2, 5, 8], [6, 1, 3, 2], [8, 4, 6, 8], [7, 1, 2, 6], [10, 5, 6, 9], [6, 2, 4, 7]]).estimate // 0.1657
 * @source Shrout and Fleiss 1979, Psychological Bulletin 86:420-428, ICC(1,1); the example is theirs
 */
export function intraclassOfGroups(
  groups: readonly (readonly number[])[],
  { level = 0.95 }: { readonly level?: number } = {},
): IntraclassOfGroups {
  const where = 'intraclassOfGroups';
  checkLevel(where, level);
  const size = groups[0]?.length ?? 0;
  if (groups.length < 2 || size < 2)
    throw new StatisticsError(where, 'too-few', `needs 2 groups of 2 values or more, got ${groups.length} of ${size}`);
  if (groups.some(({ length }) => length !== size))
    throw new StatisticsError(where, 'lengths-differ', 'needs groups of the same size; fit a mixed model instead');
  const { fStatistic } = oneWayAnalysis(groups);
  const [between, within] = [groups.length - 1, groups.length * (size - 1)];
  const tail = (1 - level) / 2;
  const ratio = fisherF(between, within);
  const shareAt = (f: number) => (f - 1) / (f + size - 1);
  const interval = {
    level,
    lower: shareAt(fStatistic / ratio.upperQuantile(tail)),
    upper: shareAt(fStatistic / ratio.quantile(tail)),
  };
  const result = { estimate: shareAt(fStatistic), interval, groups: groups.length, size };
  return checkedResult(where, { kind: 'intraclass-of-groups', ...result });
}
