import { checkFinite } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';

/** A value as measured, or only known to lie below a limit. */
export type LeftCensored =
  | { readonly kind: 'measured'; readonly value: number }
  | { readonly kind: 'below'; readonly limit: number };

/** Measured values and limits, checked. */
export interface SplitCensored {
  readonly measured: readonly number[];
  readonly limits: readonly number[];
}

/** Refuses values from which no mean can be estimated: fewer than two different measured ones. */
export function splitCensored(where: string, values: readonly LeftCensored[]): SplitCensored {
  const measured = values.flatMap((one) => (one.kind === 'measured' ? [one.value] : []));
  const limits = values.flatMap((one) => (one.kind === 'below' ? [one.limit] : []));
  for (const value of measured) checkFinite(where, 'measured value', value);
  for (const limit of limits) checkFinite(where, 'limit', limit);
  if (measured.length < 2) {
    const detail = `needs at least 2 measured values beside those below their limit, got ${measured.length}; lower the limit`;
    throw new StatisticsError(where, 'too-few', detail);
  }
  if (measured.every((value) => value === measured[0]))
    throw new StatisticsError(
      where,
      'no-variation',
      `needs measured values that differ, got ${measured[0]} throughout`,
    );
  return { measured, limits };
}
