import { checkedResult, checkFinite, checkLevel } from '../../checked-input.js';
import { noncentralityInterval } from '../../distributions/noncentrality-interval.js';
import type { Interval } from '../../interval.js';
import { StatisticsError } from '../../statistics-error.js';

interface Standardised {
  readonly where: string;
  readonly difference: number;
  readonly standardDeviation: number;
  readonly sizes: readonly [number, number];
  readonly degreesOfFreedom: number;
  readonly level: number;
}

/** A difference in standard deviations, with the exact limits of its population value. */
export function standardised(parts: Standardised): { readonly ratio: number; readonly interval: Interval } {
  const { where, difference, standardDeviation, sizes, degreesOfFreedom, level } = parts;
  checkLevel(where, level);
  checkFinite(where, 'difference', difference);
  checkFinite(where, 'standard deviation', standardDeviation);
  if (!(standardDeviation > 0)) {
    const what = `needs a standard deviation above zero, got ${standardDeviation}`;
    throw new StatisticsError(
      where,
      'no-variation',
      `${what}; a difference of values that do not vary has no such size`,
    );
  }
  for (const size of sizes) {
    if (!(size >= 1 && Number.isFinite(size))) {
      throw new StatisticsError(where, 'too-few', `needs at least 1 value in each group, got ${size}; add units`);
    }
  }
  const ratio = difference / standardDeviation;
  const root = Math.sqrt(1 / (1 / sizes[0] + 1 / sizes[1]));
  const noncentrality = noncentralityInterval(ratio * root, degreesOfFreedom, level);
  const interval = { level, lower: noncentrality.lower / root, upper: noncentrality.upper / root };
  return checkedResult(where, { ratio, interval });
}
