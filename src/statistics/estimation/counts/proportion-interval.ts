import { checkLevel } from '../../checked-input.js';
import { beta } from '../../distributions/beta.js';
import { normal } from '../../distributions/normal.js';
import type { Interval } from '../../interval.js';
import { StatisticsError } from '../../statistics-error.js';

export interface ProportionOptions {
  readonly level?: number;
  /** Wilson's score limits unless told; Clopper and Pearson's keep their level whatever the truth, and are wider. */
  readonly limits?: 'wilson' | 'clopper-pearson';
}

export interface Proportion {
  readonly kind: 'proportion';
  readonly estimate: number;
  readonly interval: Interval;
}

/**
 * Share of units that have something, such as walls that are dry at two years, with its limits.
 *
 * Wilson: the shares p with |x/n − p| ≤ z √(p(1 − p)/n). Clopper and Pearson: the shares at which so many or more, and so many or fewer,
 * have half the error each, by quantiles of the beta distribution.
 *
 * @throws StatisticsError `out-of-range` for counts that are no whole numbers of 0 or more, for more than there are, and for the level;
 *   `too-few` without a unit
 * @example proportion(7, 8).interval // { level: 0.95, lower: 0.5291, upper: 0.9776 }
 * @source Wilson 1927, J. Am. Stat. Assoc. 22:209-212; Clopper and Pearson 1934, Biometrika 26:404-413 (from memory)
 */
export function proportion(
  having: number,
  of: number,
  { level = 0.95, limits = 'wilson' }: ProportionOptions = {},
): Proportion {
  const where = 'proportion';
  checkLevel(where, level);
  if (![having, of].every((count) => Number.isSafeInteger(count) && count >= 0) || having > of)
    throw new StatisticsError(where, 'out-of-range', `needs counts, no more than there are, got ${having} of ${of}`);
  if (of === 0) throw new StatisticsError(where, 'too-few', 'needs at least 1 unit, got none');
  const tail = (1 - level) / 2;
  const [lower, upper] = limits === 'wilson' ? scoreLimits(having, of, tail) : exactLimits(having, of, tail);
  return { kind: 'proportion', estimate: having / of, interval: { level, lower, upper } };
}

function scoreLimits(having: number, of: number, tail: number): readonly [number, number] {
  const z = normal().upperQuantile(tail);
  const spread = z * Math.sqrt((having * (of - having)) / of + (z * z) / 4);
  const ends = (sign: number) => (having + (z * z) / 2 + sign * spread) / (of + z * z);
  // At the ends the limit is the end itself, not a rounding short of it.
  return [having === 0 ? 0 : ends(-1), having === of ? 1 : ends(1)];
}

function exactLimits(having: number, of: number, tail: number): readonly [number, number] {
  return [
    having === 0 ? 0 : beta(having, of - having + 1).quantile(tail),
    having === of ? 1 : beta(having + 1, of - having).upperQuantile(tail),
  ];
}
