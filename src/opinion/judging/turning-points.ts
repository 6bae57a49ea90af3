import type { VerdictCode } from '../../analysis/verdict-code.js';
import { verdictCode } from '../../analysis/verdict-code.js';
import type { Interval } from '../../statistics/index.js';

/** How far the primary interval would have to be wrong for something to change. */
export interface TurningPoint {
  /** In the outcome's unit, above 0. */
  readonly shift: number;
  /** The verdict from there on; or, where it has changed before, what becomes of zero. */
  readonly becomes: Exclude<VerdictCode, 'not-answerable'> | 'holds-zero' | 'leaves-zero';
}

/** By what somebody could object: that the result was flattered (pushed towards the claim), or that an effect was hidden. */
export interface TurningPoints {
  /** The truth would be that much worse than the interval. Empty where no such error changes the verdict. */
  readonly flattered: readonly TurningPoint[];
  /** The truth would be that much better. */
  readonly hidden: readonly TurningPoint[];
}

/**
 * The smallest errors in either direction that would change the verdict, the interval keeping its width; and, where that comes
 * later, the one at which zero comes to lie inside or outside the interval.
 *
 * @param margin the smallest worthwhile difference, positive; undefined where the plan states none
 * @example turningPoints({ level: 0.95, lower: -8.3, upper: -6 }, 5, 'lower').flattered // [{ shift: 1, becomes: 'some-effect' }, { shift: 6, becomes: 'holds-zero' }]
 */
export function turningPoints(
  interval: Interval,
  margin: number | undefined,
  better: 'lower' | 'higher',
): TurningPoints {
  const worse = better === 'lower' ? 1 : -1;
  return {
    flattered: alongOneWay(interval, margin, better, worse),
    hidden: alongOneWay(interval, margin, better, -worse),
  };
}

function alongOneWay(
  interval: Interval,
  margin: number | undefined,
  better: 'lower' | 'higher',
  sign: number,
): readonly TurningPoint[] {
  const moved = (by: number): Interval => ({
    level: interval.level,
    lower: interval.lower + sign * by,
    upper: interval.upper + sign * by,
  });
  const now = verdictCode(interval, margin, better);
  const marks = margin === undefined ? [0] : [0, better === 'lower' ? -margin : margin];
  const passed = [interval.lower, interval.upper].flatMap((limit) => marks.map((mark) => sign * (mark - limit)));
  // A verdict holds at a limit that just touches, so that each shift is looked at from a little beyond.
  const beyond = 1e-9 * (Math.abs(interval.lower) + Math.abs(interval.upper) + (margin ?? 0));
  const shifts = passed.filter((shift) => shift >= 0).sort((one, other) => one - other);
  const first = shifts.find((shift) => verdictCode(moved(shift + beyond), margin, better) !== now);
  if (first === undefined) return [];
  const holdsZero = ({ lower, upper }: Interval) => lower <= 0 && upper >= 0;
  const crossing = shifts.find((shift) => holdsZero(moved(shift + beyond)) !== holdsZero(interval));
  const turned = { shift: first, becomes: verdictCode(moved(first + beyond), margin, better) };
  if (crossing === undefined || crossing <= first) return [turned];
  return [turned, { shift: crossing, becomes: holdsZero(interval) ? 'leaves-zero' : 'holds-zero' }];
}
