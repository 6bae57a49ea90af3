import { checkedResult } from '../checked-input.js';
import { productLimit, restrictedMean } from '../survival/product-limit.js';
import { type LeftCensored, splitCensored } from './left-censored.js';

/** A mean without a shape of distribution. */
export interface ProductLimitMean {
  readonly estimate: number;
  readonly standardError: number;
  /** Where the lowest of all is a limit, its share of the values is counted at that limit: the mean is then too high, by this at most for values of 0 or more. */
  readonly shareAtLowestLimit: number;
  readonly lowestLimit?: number;
}

/**
 * Mean of values of which some lie below a limit, by the product-limit estimate of the values turned about: distance below the
 * largest value takes the place of time, and a value below its limit is followed only to that limit.
 *
 * @throws StatisticsError as `censoredMean`
 * @example productLimitMean([{ kind: 'measured', value: 2 }, { kind: 'measured', value: 1 }, { kind: 'below', limit: 0.5 }]).estimate
 * @source Helsel 2012, Statistics for Censored Environmental Data, ch. 6 (from memory)
 */
export function productLimitMean(values: readonly LeftCensored[]): ProductLimitMean {
  const where = 'productLimitMean';
  const { measured, limits } = splitCensored(where, values);
  const top = Math.max(...measured, ...limits);
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
  });
}
