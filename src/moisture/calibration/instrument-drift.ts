import { dayNumber } from '../../plain/days.js';
import { groupBy } from '../../plain/group-by.js';
import { extremes, type Interval, mean, studentT } from '../../statistics/index.js';
import { MoistureError } from '../moisture-error.js';

/** A reading on a block that does not change. */
export interface CheckOfInstrument {
  /** ISO day. */
  readonly day: string;
  readonly block: string;
  readonly value: number;
}

/** How far an instrument moved by itself, in its own unit. */
export interface InstrumentDrift {
  /** From the first check to the last, with its interval. */
  readonly drift: number;
  readonly interval: Interval;
  /** Two-sided, of no drift. */
  readonly pValue: number;
  readonly days: number;
  readonly checks: number;
  readonly blocks: number;
  /** Standard deviation of single checks about the line. */
  readonly scatter: number;
}

/**
 * Drift of an instrument from readings on check blocks: one slope in time for all blocks, each with its own level, by least squares.
 * Assumes that the blocks themselves stay as they are, and that the drift is steady.
 *
 * @throws MoistureError `too-few` below blocks + 2 checks, `no-variation` where all checks of a block lie on one day
 * @example
 * instrumentDrift([
 *   { day: '2024-03-01', block: 'wet', value: 61.2 },
 *   { day: '2024-09-01', block: 'wet', value: 61.9 },
 *   { day: '2025-03-01', block: 'wet', value: 62.3 },
 * ]).drift // 1.101 index points from the first to the last check
 */
export function instrumentDrift(
  checks: readonly CheckOfInstrument[],
  { level = 0.95 }: { readonly level?: number } = {},
): InstrumentDrift {
  const where = 'instrumentDrift';
  for (const { value } of checks)
    if (!Number.isFinite(value)) throw new MoistureError(where, 'not-finite', `needs finite values, got ${value}`);
  const blocks = groupBy(checks, ({ block }) => block);
  const freedom = checks.length - blocks.size - 1;
  if (freedom < 1) {
    const detail = `needs at least 2 checks more than blocks, got ${checks.length} checks of ${blocks.size} blocks`;
    throw new MoistureError(where, 'too-few', detail);
  }
  let [xx, xy, yy] = [0, 0, 0];
  for (const own of blocks.values()) {
    const day = mean(own.map((check) => dayNumber(check.day)));
    const value = mean(own.map((check) => check.value));
    for (const check of own) {
      const [dx, dy] = [dayNumber(check.day) - day, check.value - value];
      xx += dx * dx;
      xy += dx * dy;
      yy += dy * dy;
    }
  }
  if (!(xx > 0)) throw new MoistureError(where, 'no-variation', 'needs checks of a block on different days');
  const { least, greatest } = extremes(checks.map((check) => dayNumber(check.day)));
  const days = greatest - least;
  const scatter = Math.sqrt(Math.max(0, yy - (xy * xy) / xx) / freedom);
  const drift = (days * xy) / xx;
  const t = studentT(freedom);
  const error = (scatter * days) / Math.sqrt(xx);
  const half = t.upperQuantile((1 - level) / 2) * error;
  // Checks on one line exactly leave no doubt, whichever way it runs.
  const pValue = error > 0 ? 2 * t.upperTail(Math.abs(drift) / error) : Number(drift === 0);
  const interval = { level, lower: drift - half, upper: drift + half };
  return { drift, interval, pValue, days, checks: checks.length, blocks: blocks.size, scatter };
}
