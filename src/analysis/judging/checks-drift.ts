import { instrumentDrift, isMoistureError } from '../../moisture/index.js';
import { daysBetween, isoDay, middleDay } from '../../plain/days.js';
import { unlessRefused } from '../../plain/unless-refused.js';
import { type Interval, mean, studentT } from '../../statistics/index.js';
import { isInWindow, type Trial } from '../../trial/index.js';

/** How far the outcome's instrument moved by itself from the before to the after window, in its own unit. */
export interface ChecksDrift {
  /**
   * `windows`: checks inside both windows, after less before, each block with its own level. `line`: where a window has none, the
   * slope of all checks in time, over the days between the middles of the windows.
   */
  readonly from: 'windows' | 'line';
  readonly drift: number;
  /** Absent where the checks leave no degrees of freedom for their scatter. */
  readonly interval?: Interval;
  /** Two-sided, of no drift; absent as the interval is. */
  readonly pValue?: number;
  readonly checks: number;
  readonly blocks: number;
}

/**
 * Drift of the outcome's instrument on check blocks between the windows. An instrument that reads both arms alike shifts both alike,
 * so that it moves the walls' changes and not their difference.
 *
 * @returns nothing where no checks of this instrument tell it
 * @example checksDrift(await readTrial('datasets/salty-chapel-walls')) // undefined, for its outcome is weighed
 */
export function checksDrift({ protocol, checks = [] }: Trial): ChecksDrift | undefined {
  const { windows, outcome, confidence: level } = protocol;
  const own = checks.flatMap(({ instrument, date, block, value }) =>
    instrument === outcome.instrument && value.kind === 'measured'
      ? [{ day: isoDay(date), block, value: value.value }]
      : [],
  );
  if (windows === undefined || own.length === 0) return undefined;
  const inside = (window: 'before' | 'after') => own.filter(({ day }) => isInWindow(day, windows[window]));
  const between = betweenWindows(inside('before'), inside('after'), level);
  if (between !== undefined) return between;
  return unlessRefused(isMoistureError, () => {
    const { drift, interval, pValue, days, checks: count, blocks } = instrumentDrift(own, { level });
    const share = daysBetween(middleDay(windows.before), middleDay(windows.after)) / days;
    const scaled = { level, lower: interval.lower * share, upper: interval.upper * share };
    return { from: 'line', drift: drift * share, interval: scaled, pValue, checks: count, blocks };
  });
}

interface Check {
  readonly block: string;
  readonly value: number;
}

/** Least squares of value on block and window: each block read in both windows tells the shift with weight a·b/(a + b). */
function betweenWindows(before: readonly Check[], after: readonly Check[], level: number): ChecksDrift | undefined {
  const names = [...new Set(before.map(({ block }) => block))].filter((name) =>
    after.some(({ block }) => block === name),
  );
  if (names.length === 0) return undefined;
  const blocks = names.map((name) => {
    const valuesOf = (checks: readonly Check[]) =>
      checks.filter(({ block }) => block === name).map(({ value }) => value);
    const [first, second] = [valuesOf(before), valuesOf(after)];
    const weight = (first.length * second.length) / (first.length + second.length);
    return { first, second, weight, shift: mean(second) - mean(first) };
  });
  const weight = blocks.reduce((sum, block) => sum + block.weight, 0);
  const drift = blocks.reduce((sum, block) => sum + block.weight * block.shift, 0) / weight;
  const count = blocks.reduce((sum, { first, second }) => sum + first.length + second.length, 0);
  const found = { from: 'windows' as const, drift, checks: count, blocks: blocks.length };
  const freedom = count - blocks.length - 1;
  if (freedom < 1) return found;
  const squares = blocks.reduce(
    (sum, { first, second, shift, weight: own }) =>
      sum + aboutMean(first) + aboutMean(second) + own * (shift - drift) ** 2,
    0,
  );
  const t = studentT(freedom);
  const error = Math.sqrt(squares / freedom / weight);
  const half = t.upperQuantile((1 - level) / 2) * error;
  const pValue = error > 0 ? 2 * t.upperTail(Math.abs(drift) / error) : Number(drift === 0);
  return { ...found, interval: { level, lower: drift - half, upper: drift + half }, pValue };
}

function aboutMean(values: readonly number[]): number {
  const centre = mean(values);
  return values.reduce((sum, value) => sum + (value - centre) ** 2, 0);
}
