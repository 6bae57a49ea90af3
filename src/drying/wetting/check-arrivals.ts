import { DryingError } from '../drying-error.js';
import type { DayOfArrival } from './day-of-arrival.js';

/** Refuses arrivals that are not finite, below the floor, or at fewer different heights than a curve needs. */
export function checkArrivals(where: string, arrivals: readonly DayOfArrival[], fewestHeights: number): void {
  for (const { height_mm, time_d } of arrivals) {
    if (height_mm >= 0 && Number.isFinite(height_mm + time_d)) continue;
    const detail = `needs heights of 0 mm or more and finite times, got ${height_mm} mm at ${time_d} d`;
    throw new DryingError(where, 'out-of-range', detail);
  }
  const heights = new Set(arrivals.map(({ height_mm }) => height_mm)).size;
  if (heights >= fewestHeights) return;
  throw new DryingError(where, 'too-few', `needs at least ${fewestHeights} different heights, got ${heights}`);
}
