import { extremes } from '../../statistics/index.js';
import { checkCurve, type DryingCurve } from '../drying-curve.js';
import { DryingError } from '../drying-error.js';

const where = 'dryingIndex';

/**
 * The drying index: the area under the moisture curve over a period, by trapezoids, over that of a wall that had stayed as
 * wet as it was. From 0 to 1 for a wall that dries; the lower, the faster. It depends on the period, so that walls can be
 * compared only over one period common to all: see `commonPeriod_d`.
 *
 * @param curve from the start of the drying; the moisture at the end of the period is read off the line between its neighbours
 * @throws DryingError `too-few` for fewer than two readings; `out-of-range` where the curve does not reach the end of the
 *   period or does not begin wet; `out-of-order`, `not-finite`, `lengths-differ`
 * @example dryingIndex({ times_d: [0, 1, 2, 4, 7], moisture: [18, 12, 8, 4, 2] }, 7) // 0.36508
 * @source NORMAL 29/88 (the index; from memory)
 */
export function dryingIndex(curve: DryingCurve, period_d: number): number {
  checkCurve(where, curve, 2);
  const { times_d, moisture } = curve;
  const [start_d, end_d] = [times_d[0] as number, times_d.at(-1) as number];
  const first = moisture[0] as number;
  if (!(first > 0)) throw new DryingError(where, 'out-of-range', `needs a curve that begins wet, got ${first}`);
  if (!(period_d > 0 && start_d + period_d <= end_d)) {
    const detail = `needs a period above 0 and within the curve’s ${end_d - start_d} days, got ${period_d}`;
    throw new DryingError(where, 'out-of-range', detail);
  }
  const stop_d = start_d + period_d;
  let area = 0;
  for (let k = 1; k < times_d.length; k++) {
    const [from, to] = [times_d[k - 1] as number, times_d[k] as number];
    if (from >= stop_d) break;
    const [high, low] = [moisture[k - 1] as number, moisture[k] as number];
    const until = Math.min(to, stop_d);
    const last = high + ((low - high) * (until - from)) / (to - from);
    area += ((until - from) * (high + last)) / 2;
  }
  return area / (first * period_d);
}

/**
 * The longest period that every curve covers from its own start, in days.
 *
 * @throws DryingError `too-few` for no curve, or for a curve of fewer than two readings
 * @example commonPeriod_d([{ times_d: [0, 30], moisture: [9, 8] }, { times_d: [0, 20], moisture: [9, 8] }]) // 20
 */
export function commonPeriod_d(curves: readonly DryingCurve[]): number {
  if (curves.length === 0) throw new DryingError('commonPeriod_d', 'too-few', 'needs at least one curve');
  const periods = curves.map((curve) => {
    checkCurve('commonPeriod_d', curve, 2);
    return (curve.times_d.at(-1) as number) - (curve.times_d[0] as number);
  });
  return extremes(periods).least;
}
