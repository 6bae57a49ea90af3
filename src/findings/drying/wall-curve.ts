import type { PlacedWall, Reason } from '../../analysis/index.js';

/** A wall's mean over its stations at each visit, from the last visit before the start on. */
export interface WallCurve extends PlacedWall {
  readonly days: readonly string[];
  /** Days since the wall’s own start, in the order of `days`; the last visit before the start counts as day 0. */
  readonly times_d: readonly number[];
  readonly moisture: readonly number[];
}

export interface WallWithoutCurve {
  readonly wall: string;
  readonly reason: Reason;
}
