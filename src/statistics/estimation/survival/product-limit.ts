import { checkFinite, checkPositive } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';

/** How long one unit was followed, and whether the event came then or the following merely ended (right-censored). */
export interface FollowedTime {
  readonly time: number;
  readonly end: 'event' | 'censored';
}

/** The estimate at one time at which events came. */
export interface ProductLimitStep {
  readonly time: number;
  /** Units still followed just before this time; one censored at the same time counts as still followed. */
  readonly atRisk: number;
  readonly events: number;
  /** Estimated chance of having no event up to and including this time. */
  readonly surviving: number;
  /** Greenwood's; absent where none survive, for the formula has no value there. */
  readonly standardError?: number;
}

export interface ProductLimit {
  /** One for each time with an event, the earliest first. Before the first the estimate is 1. */
  readonly steps: readonly ProductLimitStep[];
  readonly n: number;
  readonly events: number;
  readonly censored: number;
  /** The longest time followed: beyond it nothing is known unless all had the event. */
  readonly lastTime: number;
}

/**
 * Product-limit estimate of survival (Kaplan and Meier 1958, J. Am. Stat. Assoc. 53:457-481): the product over the event times
 * of 1 − events/at risk. Standard errors by Greenwood's formula, S² Σ d/(n(n − d)).
 *
 * Assumes that a unit is censored for reasons that have nothing to do with when its event would have come.
 *
 * @throws StatisticsError `too-few` without times, `not-finite`
 * @example productLimit([{ time: 3, end: 'event' }, { time: 5, end: 'censored' }]).steps[0]?.surviving // 0.5
 */
export function productLimit(times: readonly FollowedTime[]): ProductLimit {
  const where = 'productLimit';
  if (times.length === 0)
    throw new StatisticsError(where, 'too-few', 'needs at least 1 followed time, got none; add units');
  for (const { time } of times) checkFinite(where, 'time', time);
  const sorted = [...times].sort((a, b) => a.time - b.time);
  const steps: ProductLimitStep[] = [];
  let surviving = 1;
  let greenwood = 0;
  let first = 0;
  while (first < sorted.length) {
    const time = (sorted[first] as FollowedTime).time;
    let end = first;
    let events = 0;
    for (; end < sorted.length && sorted[end]?.time === time; end++) if (sorted[end]?.end === 'event') events++;
    const atRisk = sorted.length - first;
    if (events > 0) {
      surviving = atRisk === events ? 0 : surviving * (1 - events / atRisk);
      greenwood += events / (atRisk * (atRisk - events));
      const known = surviving > 0 ? { standardError: surviving * Math.sqrt(greenwood) } : {};
      steps.push({ time, atRisk, events, surviving, ...known });
    }
    first = end;
  }
  const events = times.filter(({ end }) => end === 'event').length;
  const lastTime = (sorted.at(-1) as FollowedTime).time;
  return { steps, n: times.length, events, censored: times.length - events, lastTime };
}

/**
 * Estimated chance of no event up to and including a time.
 *
 * @throws StatisticsError `out-of-range` beyond the longest time followed while some survive, where nothing is known
 * @example survivingAt(productLimit([{ time: 3, end: 'event' }, { time: 5, end: 'censored' }]), 4) // 0.5
 */
export function survivingAt(estimate: ProductLimit, time: number): number {
  checkFinite('survivingAt', 'time', time);
  const last = estimate.steps.findLast((step) => step.time <= time);
  const surviving = last?.surviving ?? 1;
  if (time > estimate.lastTime && surviving > 0) beyond('survivingAt', time, estimate.lastTime);
  return surviving;
}

export interface RestrictedMean {
  readonly until: number;
  /** Mean time without the event, counted up to `until` at most. */
  readonly estimate: number;
  readonly standardError: number;
}

/**
 * Mean of min(time to event, until), for times from 0: the area under the product-limit estimate up to `until`. Its standard
 * error is √Σ A²d/(n(n − d)) with A the area from each event time on.
 *
 * @throws StatisticsError `out-of-range` for `until` not above 0, for times below 0, and beyond the longest time followed while some survive
 * @example restrictedMean(productLimit([{ time: 3, end: 'event' }, { time: 5, end: 'censored' }]), 5).estimate // 4, of the first 5
 */
export function restrictedMean(estimate: ProductLimit, until: number): RestrictedMean {
  const where = 'restrictedMean';
  checkPositive(where, 'limit of the mean', until);
  if ((estimate.steps[0]?.time ?? 0) < 0)
    throw new StatisticsError(where, 'out-of-range', 'needs times of 0 or more; count them from the start');
  if (until > estimate.lastTime && (estimate.steps.at(-1)?.surviving ?? 1) > 0) beyond(where, until, estimate.lastTime);
  const within = estimate.steps.filter(({ time }) => time < until);
  let area = 0;
  let variance = 0;
  let end = until;
  for (const { time, atRisk, events, surviving } of within.toReversed()) {
    area += surviving * (end - time);
    if (atRisk > events) variance += (area * area * events) / (atRisk * (atRisk - events));
    end = time;
  }
  return { until, estimate: area + end, standardError: Math.sqrt(variance) };
}

function beyond(where: string, time: number, last: number): never {
  const detail = `needs a time up to the longest followed, ${last}, got ${time}; some survive it, so nothing is known beyond`;
  throw new StatisticsError(where, 'out-of-range', detail);
}
