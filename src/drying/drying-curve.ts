import { DryingError } from './drying-error.js';

/** Moisture of one wall, station or specimen over time. */
export interface DryingCurve {
  /** Days since the drying began, in increasing order. */
  readonly times_d: readonly number[];
  /** One for each time, in the outcome's unit. */
  readonly moisture: readonly number[];
}

/** Refuses a curve with gaps, times out of order, or fewer readings than are needed. */
export function checkCurve(where: string, { times_d, moisture }: DryingCurve, fewest: number): void {
  if (times_d.length !== moisture.length) {
    const detail = `needs one moisture for every time, got ${moisture.length} for ${times_d.length}`;
    throw new DryingError(where, 'lengths-differ', detail);
  }
  if (times_d.length < fewest)
    throw new DryingError(where, 'too-few', `needs at least ${fewest} readings, got ${times_d.length}`);
  const odd = [...times_d, ...moisture].find((value) => !Number.isFinite(value));
  if (odd !== undefined)
    throw new DryingError(where, 'not-finite', `needs finite times and moistures, got ${odd}; leave that reading out`);
  const late = times_d.findIndex((time, k) => k > 0 && time <= (times_d[k - 1] as number));
  if (late < 0) return;
  const detail = `needs times in increasing order, got ${times_d[late]} after ${times_d[late - 1]} days`;
  throw new DryingError(where, 'out-of-order', detail);
}
