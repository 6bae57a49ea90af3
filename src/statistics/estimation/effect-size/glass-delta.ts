import { checkSample } from '../../checked-input.js';
import type { Interval } from '../../interval.js';
import { StatisticsError } from '../../statistics-error.js';
import type { LevelOption } from '../comparison/mean-comparison.js';
import { momentsOf } from '../summaries/moments.js';
import { standardised } from './standardised.js';

export interface GlassDelta {
  readonly kind: 'glass-delta';
  readonly estimate: number;
  readonly interval: Interval;
  readonly degreesOfFreedom: number;
  readonly n: { readonly treated: number; readonly untreated: number };
}

export interface GlassSummary {
  /** Treated less untreated, however it was estimated. */
  readonly difference: number;
  readonly untreatedSd: number;
  readonly treated: number;
  readonly untreated: number;
  /** Confidence level as a fraction; 0.95 unless told. */
  readonly level?: number;
}

/**
 * Glass's delta: a difference of means in standard deviations of the untreated group, so that a treatment which also
 * changes the spread is not measured by its own spread. Without small-sample correction, as Glass (1976) defines it.
 *
 * The limits come from the noncentral t with (untreated - 1) degrees of freedom. They are exact for independent normal groups
 * whose spread is the same; where the treated group spreads more they are too narrow, where less too wide.
 *
 * @param summary `treated` and `untreated` count the values in each group
 * @throws StatisticsError `no-variation` when the standard deviation is zero, `too-few` with fewer than two untreated values
 * @example glassDelta({ difference: -1.125, untreatedSd: 0.5830952, treated: 4, untreated: 4 }).estimate // -1.929...
 */
export function glassDelta(summary: GlassSummary): GlassDelta {
  const { difference, untreatedSd, treated, untreated, level = 0.95 } = summary;
  if (!(untreated >= 2)) {
    const what = `needs at least 2 untreated values, got ${untreated}`;
    throw new StatisticsError('glassDelta', 'too-few', `${what}; add untreated units`);
  }
  const degreesOfFreedom = untreated - 1;
  const { ratio, interval } = standardised({
    where: 'glassDelta',
    difference,
    standardDeviation: untreatedSd,
    sizes: [treated, untreated],
    degreesOfFreedom,
    level,
  });
  return { kind: 'glass-delta', estimate: ratio, interval, degreesOfFreedom, n: { treated, untreated } };
}

/**
 * Glass's delta of two independent groups.
 *
 * @throws StatisticsError as `glassDelta`, and `not-finite`
 * @example glassDeltaOfGroups([-3.1, -1.8, -2.6, -2.2], [-1.2, -2.0, -0.6, -1.4]).degreesOfFreedom // 3
 */
export function glassDeltaOfGroups(
  treated: readonly number[],
  untreated: readonly number[],
  options: LevelOption = {},
): GlassDelta {
  checkSample('glassDeltaOfGroups', 'treated', treated, 1);
  checkSample('glassDeltaOfGroups', 'untreated', untreated, 2);
  const reference = momentsOf(untreated);
  return glassDelta({
    difference: momentsOf(treated).mean - reference.mean,
    untreatedSd: Math.sqrt(reference.variance),
    treated: treated.length,
    untreated: untreated.length,
    level: options.level ?? 0.95,
  });
}
