import { isStatisticsError } from '../../statistics-error.js';
import { mean } from '../summaries/mean.js';
import { type CensoredMean, censoredMean } from './censored-mean.js';
import { type LeftCensored, splitCensored } from './left-censored.js';
import { type ProductLimitMean, productLimitMean } from './product-limit-mean.js';

/** How a mean moves with the way in which values below their limits are counted. */
export interface CensoredMeans {
  readonly n: number;
  readonly below: number;
  readonly fractionBelow: number;
  readonly normal: CensoredMean;
  /** Absent where values or limits are not above 0, or where it cannot be computed. */
  readonly lognormal?: CensoredMean;
  readonly productLimit: ProductLimitMean;
  /** With every value below its limit at the least possible value, and at its limit: no honest answer lies outside. */
  readonly bounds: { readonly lower: number; readonly upper: number };
}

/**
 * The mean of values of which some lie below a limit, by every method at once, with the bounds that hold whatever those values
 * were.
 *
 * @param least the least possible value; 0 unless told
 * @throws StatisticsError as `censoredMean`
 * @example censoredMeans([{ kind: 'measured', value: 1.2 }, { kind: 'measured', value: 2.1 }, { kind: 'below', limit: 0.6 }]).bounds // { lower: 1.1, upper: 1.3 }
 */
export function censoredMeans(
  values: readonly LeftCensored[],
  { level = 0.95, least = 0 }: { readonly level?: number; readonly least?: number } = {},
): CensoredMeans {
  const { limits } = splitCensored('censoredMeans', values);
  const lognormal = lognormalMean(values, level);
  const countedAs = (below: (limit: number) => number) =>
    mean(values.map((one) => (one.kind === 'measured' ? one.value : below(one.limit))));
  return {
    n: values.length,
    below: limits.length,
    fractionBelow: limits.length / values.length,
    normal: censoredMean(values, { level }),
    ...(lognormal === undefined ? {} : { lognormal }),
    productLimit: productLimitMean(values),
    bounds: { lower: countedAs((limit) => Math.min(least, limit)), upper: countedAs((limit) => limit) },
  };
}

function lognormalMean(values: readonly LeftCensored[], level: number): CensoredMean | undefined {
  try {
    return censoredMean(values, { kind: 'lognormal', level });
  } catch (error) {
    if (isStatisticsError(error)) return undefined;
    throw error;
  }
}
