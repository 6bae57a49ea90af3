import { checkSample } from '../../checked-input.js';
import { fisherF } from '../../distributions/fisher-f.js';
import { StatisticsError } from '../../statistics-error.js';
import { compensatedSum } from '../summaries/compensated-sum.js';
import { deviations } from '../summaries/deviations.js';

/** A line of the table of an analysis of variance. */
export interface SourceOfVariation {
  readonly sumOfSquares: number;
  readonly degreesOfFreedom: number;
  readonly meanSquare: number;
}

export interface OneWayAnalysis {
  readonly between: SourceOfVariation;
  readonly within: SourceOfVariation;
  /** Mean square between over mean square within. */
  readonly fStatistic: number;
  readonly pValue: number;
  /** Share of the total sum of squares that lies between the groups. */
  readonly rSquared: number;
  readonly residualStandardDeviation: number;
}

/**
 * One-way analysis of variance: do the means of several groups differ by more than the scatter within them explains?
 *
 * Assumes independent values with the same variance in every group. All sums of squares are taken from deviations that
 * are exact even when the values share many leading digits.
 *
 * @throws StatisticsError `too-few` for fewer than two groups, an empty group, or no group with two values;
 * `not-finite`; `no-variation` when no value differs from the mean of its group
 * @example oneWayAnalysis([[1, 2, 3], [2, 3, 7]]).fStatistic // 1.5
 */
export function oneWayAnalysis(groups: readonly (readonly number[])[]): OneWayAnalysis {
  const where = 'oneWayAnalysis';
  if (groups.length < 2) {
    throw new StatisticsError(where, 'too-few', `needs at least 2 groups, got ${groups.length}`);
  }
  for (const [index, group] of groups.entries()) checkSample(where, `group ${index + 1}`, group, 1);
  const all = groups.flat();
  const withinDegreesOfFreedom = all.length - groups.length;
  if (withinDegreesOfFreedom === 0) {
    throw new StatisticsError(where, 'too-few', 'needs at least one group with 2 values; add values to the groups');
  }
  if (groups.every((group) => group.every((value) => value === group[0]))) {
    throw new StatisticsError(
      where,
      'no-variation',
      'needs values that differ within a group; check for copied readings',
    );
  }
  // Deviations from the mean of all values, cut into the groups again: small numbers that carry what differs.
  const around = deviations(all);
  let end = 0;
  const aroundByGroup = groups.map((group) => {
    end += group.length;
    return around.slice(end - group.length, end);
  });
  const withinSum = compensatedSum(aroundByGroup.flatMap(deviations).map((deviation) => deviation ** 2));
  const betweenSum = compensatedSum(aroundByGroup.map((group) => compensatedSum(group) ** 2 / group.length));
  if (withinSum === 0) {
    throw new StatisticsError(
      where,
      'no-variation',
      'needs values that differ within a group; check for copied readings',
    );
  }
  const between = source(betweenSum, groups.length - 1);
  const within = source(withinSum, withinDegreesOfFreedom);
  const fStatistic = between.meanSquare / within.meanSquare;
  return {
    between,
    within,
    fStatistic,
    pValue: fisherF(between.degreesOfFreedom, within.degreesOfFreedom).upperTail(fStatistic),
    rSquared: betweenSum / (betweenSum + withinSum),
    residualStandardDeviation: Math.sqrt(within.meanSquare),
  };
}

function source(sumOfSquares: number, degreesOfFreedom: number): SourceOfVariation {
  return { sumOfSquares, degreesOfFreedom, meanSquare: sumOfSquares / degreesOfFreedom };
}
