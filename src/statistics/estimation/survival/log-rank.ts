import { checkFinite } from '../../checked-input.js';
import { chiSquare } from '../../distributions/chi-square.js';
import { studentT } from '../../distributions/student-t.js';
import { StatisticsError } from '../../statistics-error.js';
import type { FollowedTime } from './product-limit.js';

/** A followed time with the group that it is compared by and the unit that was allotted to the group. */
export interface ClusteredTime extends FollowedTime {
  readonly group: 'x' | 'y';
  /** Times of one cluster, such as the stations of one wall, may be correlated in any way. */
  readonly cluster: string;
}

export interface LogRank {
  /** Events in x, and how many there would be if both groups had the same chance at every time. */
  readonly observed: number;
  readonly expected: number;
  /** As if all times were independent: the classical test. */
  readonly independent: { readonly chiSquare: number; readonly pValue: number };
  /**
   * With clusters as the units: observed less expected over the root of the summed squares of the clusters' shares in it, and
   * its p-value by Student's t of those shares, which with few clusters is nearer to the truth than the normal.
   */
  readonly clustered: { readonly statistic: number; readonly degreesOfFreedom: number; readonly pValue: number };
  readonly clusters: number;
}

const WHERE = 'logRank';

/**
 * The log-rank test of two groups, x against y, where times may be right-censored and come in clusters.
 *
 * @throws StatisticsError `too-few` without events, without both groups, or with fewer than two clusters in a group;
 *   `no-variation`; `not-finite`; `out-of-range` where a cluster stands in both groups
 * @example
 * const times = [
 *   { time: 3, end: 'event', group: 'x', cluster: 'a' },
 *   { time: 5, end: 'event', group: 'x', cluster: 'b' },
 *   { time: 6, end: 'event', group: 'y', cluster: 'c' },
 *   { time: 9, end: 'censored', group: 'y', cluster: 'd' },
 * ];
 * logRank(times).independent.chiSquare // 2.882
 * @source Mantel 1966, Cancer Chemother. Rep. 50:163–170; shares of the clusters: Lin and Wei 1989, J. Am. Stat. Assoc. 84:1074–1078, at no effect
 */
export function logRank(times: readonly ClusteredTime[]): LogRank {
  checkTimes(times);
  const steps = riskSteps(times);
  const observed = steps.reduce((sum, { eventsInX }) => sum + eventsInX, 0);
  const expected = steps.reduce((sum, { events, shareOfX }) => sum + events * shareOfX, 0);
  const variance = steps.reduce((sum, { events, atRisk, shareOfX }) => {
    const left = atRisk > 1 ? (atRisk - events) / (atRisk - 1) : 0;
    return sum + events * shareOfX * (1 - shareOfX) * left;
  }, 0);
  if (!(variance > 0))
    throw new StatisticsError(WHERE, 'no-variation', 'needs events while both groups are still followed');
  const square = (observed - expected) ** 2 / variance;
  const shares = clusterShares(times, steps);
  const squares = shares.reduce((sum, share) => sum + share * share, 0);
  const statistic = (observed - expected) / Math.sqrt(squares);
  const degreesOfFreedom = shares.length - 1;
  // The one-sample t of the clusters' shares, from the same two sums; kept finite where all shares are alike.
  const t = Math.abs(statistic) * Math.sqrt(degreesOfFreedom / Math.max(shares.length - statistic ** 2, 1e-12));
  return {
    observed,
    expected,
    independent: { chiSquare: square, pValue: chiSquare(1).upperTail(square) },
    clustered: { statistic, degreesOfFreedom, pValue: Math.min(1, 2 * studentT(degreesOfFreedom).upperTail(t)) },
    clusters: shares.length,
  };
}

interface RiskStep {
  readonly time: number;
  readonly events: number;
  readonly eventsInX: number;
  readonly atRisk: number;
  readonly shareOfX: number;
}

function riskSteps(times: readonly ClusteredTime[]): readonly RiskStep[] {
  const eventTimes = [...new Set(times.filter(({ end }) => end === 'event').map(({ time }) => time))];
  return eventTimes
    .sort((one, other) => one - other)
    .map((at) => {
      const followed = times.filter(({ time }) => time >= at);
      const events = followed.filter(({ time, end }) => time === at && end === 'event');
      return {
        time: at,
        events: events.length,
        eventsInX: events.filter(({ group }) => group === 'x').length,
        atRisk: followed.length,
        shareOfX: followed.filter(({ group }) => group === 'x').length / followed.length,
      };
    });
}

/** What each cluster brings to observed less expected: its events beyond the share of its group, less its part in the risk. */
function clusterShares(times: readonly ClusteredTime[], steps: readonly RiskStep[]): readonly number[] {
  const shares = new Map<string, number>();
  for (const { time, end, group, cluster } of times) {
    const own = group === 'x' ? 1 : 0;
    let share = 0;
    for (const step of steps) {
      if (step.time > time) break;
      if (step.time === time && end === 'event') share += own - step.shareOfX;
      share -= ((own - step.shareOfX) * step.events) / step.atRisk;
    }
    shares.set(cluster, (shares.get(cluster) ?? 0) + share);
  }
  return [...shares.values()];
}

function checkTimes(times: readonly ClusteredTime[]): void {
  for (const { time } of times) checkFinite(WHERE, 'time', time);
  const clustersOf = (group: 'x' | 'y') =>
    new Set(times.filter((one) => one.group === group).map((one) => one.cluster));
  const [ofX, ofY] = [clustersOf('x'), clustersOf('y')];
  const shared = [...ofX].find((cluster) => ofY.has(cluster));
  if (shared !== undefined)
    throw new StatisticsError(
      WHERE,
      'out-of-range',
      `needs clusters that stand in one group, but "${shared}" is in both`,
    );
  if (ofX.size < 2 || ofY.size < 2) {
    const detail = `needs at least 2 clusters in each group, got ${ofX.size} and ${ofY.size}`;
    throw new StatisticsError(WHERE, 'too-few', detail);
  }
  if (times.some(({ end }) => end === 'event')) return;
  throw new StatisticsError(WHERE, 'too-few', 'needs at least one event; all times are censored');
}
