import { checkSample } from '../../checked-input.js';
import type { Interval } from '../../interval.js';
import type { GroupSizes, LevelOption } from '../comparison/mean-comparison.js';
import { pooledSpread } from '../comparison/pooled.js';
import { momentsOf } from '../summaries/moments.js';
import { smallSampleCorrection } from './small-sample-correction.js';
import { standardised } from './standardised.js';

export interface HedgesG {
  readonly kind: 'hedges-g';
  readonly estimate: number;
  readonly interval: Interval;
  readonly degreesOfFreedom: number;
  /** The exact small-sample correction that estimate and limits were multiplied by. */
  readonly correction: number;
  readonly n: GroupSizes;
}

export interface StandardisedSummary {
  /** x less y, however it was estimated. */
  readonly difference: number;
  /** Standard deviation within groups, with n1 + n2 - 2 degrees of freedom. */
  readonly pooledSd: number;
  readonly n1: number;
  readonly n2: number;
  /** Confidence level as a fraction; 0.95 unless told. */
  readonly level?: number;
}

/**
 * Hedges' g: a difference of means in pooled standard deviations, times the exact small-sample correction.
 *
 * The limits are those of the noncentrality of t = (difference / pooledSd) / sqrt(1/n1 + 1/n2) with n1 + n2 - 2 degrees of
 * freedom, over the same root, times the same correction. They are exact for two independent normal groups of equal spread
 * and `difference` the difference of their means; with a difference estimated inside blocks they take no credit for the
 * blocks, and are as a rule too wide.
 *
 * @throws StatisticsError `no-variation` when the standard deviation is zero, `too-few` below 4 values in all
 * @example hedgesG({ difference: -1.125, pooledSd: 0.5667892, n1: 4, n2: 4 }).estimate // -1.724...
 */
export function hedgesG(summary: StandardisedSummary): HedgesG {
  const { difference, pooledSd, n1, n2, level = 0.95 } = summary;
  const degreesOfFreedom = n1 + n2 - 2;
  const correction = smallSampleCorrection(degreesOfFreedom);
  const { ratio, interval } = standardised({
    where: 'hedgesG',
    difference,
    standardDeviation: pooledSd,
    sizes: [n1, n2],
    degreesOfFreedom,
    level,
  });
  return {
    kind: 'hedges-g',
    estimate: ratio * correction,
    interval: { level, lower: interval.lower * correction, upper: interval.upper * correction },
    degreesOfFreedom,
    correction,
    n: { x: n1, y: n2 },
  };
}

/**
 * Hedges' g of two independent groups, x less y.
 *
 * @throws StatisticsError as `hedgesG`, and `not-finite`
 * @example hedgesGOfGroups([-3.1, -1.8, -2.6, -2.2], [-1.2, -2.0, -0.6, -1.4]).estimate // -1.724...
 */
export function hedgesGOfGroups(x: readonly number[], y: readonly number[], options: LevelOption = {}): HedgesG {
  checkSample('hedgesGOfGroups', 'x', x, 1);
  checkSample('hedgesGOfGroups', 'y', y, 1);
  const pooledSd = pooledSpread(x, y).standardDeviation;
  const difference = momentsOf(x).mean - momentsOf(y).mean;
  return hedgesG({ difference, pooledSd, n1: x.length, n2: y.length, level: options.level ?? 0.95 });
}
