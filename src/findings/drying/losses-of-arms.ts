import { dryingIndex, isDryingError } from '../../drying/index.js';
import { present } from '../../plain/present.js';
import { unlessRefused } from '../../plain/unless-refused.js';
import { mean } from '../../statistics/index.js';
import type { DryingShown, WallCurve } from './drying-part.js';

/** Moisture at the start less moisture on a day, read off the line between neighbouring visits. */
export function lostBy({ times_d, moisture }: WallCurve, day: number): number {
  const first = times_d[0] ?? 0;
  const at = times_d.findIndex((time) => time - first >= day);
  const [left, right] = [(times_d[at - 1] ?? 0) - first, (times_d[at] ?? 0) - first];
  const [from, to] = [moisture[at - 1] ?? 0, moisture[at] ?? 0];
  return (moisture[0] ?? 0) - (from + ((to - from) * (day - left)) / (right - left));
}

/** What the walls of each arm lost over the days that all curves cover, treated arms first. */
export function lossesOfArms(curves: readonly WallCurve[], period_d: number): DryingShown['losses'] {
  const sorted = curves.toSorted((one, other) => Number(other.side === 'treated') - Number(one.side === 'treated'));
  return [...new Set(sorted.map(({ arm }) => arm))].map((arm) => {
    const own = sorted.filter((curve) => curve.arm === arm);
    const lost = mean(own.map((curve) => lostBy(curve, period_d)));
    const index = meanIndex(own, period_d);
    return {
      arm,
      walls: own.length,
      start: mean(own.map(({ moisture }) => moisture[0] ?? 0)),
      lost,
      lostIn30Days: (30 * lost) / period_d,
      ...present({ index }),
    };
  });
}

/** Undefined where a curve does not begin wet. */
function meanIndex(own: readonly WallCurve[], period_d: number): number | undefined {
  return unlessRefused(isDryingError, () => mean(own.map((curve) => dryingIndex(curve, period_d))));
}
