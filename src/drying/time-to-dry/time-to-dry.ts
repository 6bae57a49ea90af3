import { present } from '../../plain/present.js';
import type { FollowedTime, IntervalTime } from '../../statistics/index.js';
import { checkCurve, type DryingCurve } from '../drying-curve.js';

/** When a curve came down to a limit for good, as far as its visits tell. */
export interface TimeToDry {
  /** The last visit above the limit, in days; 0 where the first visit was already at or below it. */
  readonly after_d: number;
  /** The first visit from which on every reading is at or below the limit; absent where it is not dry by the last. */
  readonly by_d?: number;
  readonly last_d: number;
}

/**
 * The visits between which a curve came down to a limit and stayed: a wall that was dry once and wet again is not dry.
 *
 * @param limit at or below which a reading counts as dry, in the curve's unit
 * @throws DryingError `too-few` for no reading; those of the curve
 * @example timeToDry({ times_d: [0, 30, 60], moisture: [9, 6, 4] }, 5) // { after_d: 30, by_d: 60, last_d: 60 }
 */
export function timeToDry(curve: DryingCurve, limit: number): TimeToDry {
  checkCurve('timeToDry', curve, 1);
  const { times_d, moisture } = curve;
  const last_d = times_d.at(-1) as number;
  const lastWet = moisture.findLastIndex((value) => value > limit);
  const after_d = lastWet < 0 ? 0 : (times_d[lastWet] as number);
  const by_d = times_d[lastWet + 1];
  return { after_d, last_d, ...present({ by_d }) };
}

/**
 * For the product-limit curve: dry at the visit that found it so, which is late by up to the time between two visits.
 *
 * @example followedUntilDry({ after_d: 30, by_d: 60, last_d: 90 }) // { time: 60, end: 'event' }
 */
export function followedUntilDry({ by_d, last_d }: TimeToDry): FollowedTime {
  return by_d === undefined ? { time: last_d, end: 'censored' } : { time: by_d, end: 'event' };
}

/**
 * For the estimate that takes account of the time between visits.
 *
 * @example intervalUntilDry({ after_d: 30, by_d: 60, last_d: 90 }) // { after: 30, by: 60 }
 */
export function intervalUntilDry({ after_d, by_d }: TimeToDry): IntervalTime {
  // Dry at the very first visit, at day 0: it was so before, which an interval up to that day would leave no room for.
  if (by_d !== undefined && by_d <= after_d) return { after: -1, by: by_d };
  return by_d === undefined ? { after: after_d } : { after: after_d, by: by_d };
}

/**
 * Days until dry, at most `until_d`: half way between the visits where it came between them. With `until_d` no later than
 * the last visit of any curve nothing is censored, and walls can be compared by their means.
 *
 * @example daysUntilDry({ after_d: 30, by_d: 60, last_d: 90 }, 80) // 45
 */
export function daysUntilDry({ after_d, by_d }: TimeToDry, until_d: number): number {
  return Math.min(until_d, by_d === undefined ? until_d : (after_d + by_d) / 2);
}
