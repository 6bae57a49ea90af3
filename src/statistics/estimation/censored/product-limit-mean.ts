import { checkedResult } from '../../checked-input.js';
import { extremes } from '../summaries/extremes.js';
import { type ProductLimit, productLimit, restrictedMean } from '../survival/product-limit.js';
import { type LeftCensored, splitCensored } from './left-censored.js';

/** A mean without a shape of distribution. */
export interface ProductLimitMean {
  readonly estimate: number;
  readonly standardError: number;
  /** Where the lowest of all is a limit, its share of the values is counted at that limit: the mean is then too high, by this at most for values of 0 or more. */
  readonly shareAtLowestLimit: number;
  readonly lowestLimit?: number;
  /** What a value below its limit is expected to be by this estimate; one for each of them, in the order given. */
  readonly expectedBelow: readonly number[];
}

/**
 * Mean of values of which some lie below a limit, by the product-limit estimate of the values turned about: distance below the
 * largest value takes the place of time, and a value below its limit is followed only to that limit.
 *
 * @throws StatisticsError as `censoredMean`
 * @example productLimitMean([{ kind: 'measured', value: 2 }, { kind: 'measured', value: 1 }, { kind: 'below', limit: 0.5 }]).estimate // 1.167
 * @source Helsel 2012, Statistics for Censored Environmental Data, ch. 6 (from memory)
 */
export function productLimitMean(values: readonly LeftCensored[]): ProductLimitMean {
  const where = 'productLimitMean';
  const { measured, limits } = splitCensored(where, values);
  const { greatest: top } = extremes([...measured, ...limits]);
  const estimate = productLimit(
    values.map((one) =>
      one.kind === 'measured'
        ? { time: top - one.value, end: 'event' as const }
        : { time: top - one.limit, end: 'censored' as const },
    ),
  );
  const area = restrictedMean(estimate, estimate.lastTime);
  const left = estimate.steps.at(-1)?.surviving ?? 1;
  return checkedResult(where, {
    estimate: top - area.estimate,
    standardError: area.standardError,
    shareAtLowestLimit: left,
    ...(left > 0 ? { lowestLimit: top - estimate.lastTime } : {}),
    expectedBelow: limits.map((limit) => top - expectedBeyond(estimate, top - limit)),
  });
}

/** Mean time of those that have no event up to and including a time; what nobody followed to its end counts at the last time. */
function expectedBeyond({ steps, lastTime }: ProductLimit, time: number): number {
  let [before, share, sum] = [1, 0, 0];
  for (const step of steps) {
    const mass = before - step.surviving;
    before = step.surviving;
    if (step.time <= time) continue;
    share += mass;
    sum += mass * step.time;
  }
  return share + before > 0 ? (sum + before * lastTime) / (share + before) : lastTime;
}
