import type { RowOrigin } from '../trial/index.js';

/** The side of the primary comparison on which a wall stands. */
export type Side = 'treated' | 'untreated';

/** A wall with its place in the comparison. */
export interface PlacedWall {
  readonly wall: string;
  readonly arm: string;
  readonly side: Side;
  /** Empty where the wall has no block. */
  readonly block: string;
}

/** One wall in the primary comparison: means over the stations that have both a before and an after value. */
export interface WallChange extends PlacedWall {
  readonly before: number;
  readonly after: number;
  /** After minus before, in the outcome's unit. */
  readonly change: number;
  readonly stations: number;
}

/** One station's means inside the windows; a window without a measured reading leaves the value absent. */
export interface StationChange {
  readonly wall: string;
  readonly station: string;
  readonly height_mm?: number;
  readonly depth_mm?: number;
  readonly before?: number;
  readonly after?: number;
}

export interface LeftOutWall {
  readonly wall: string;
  readonly reason: string;
}

/** Readings left out for one reason, counted, with the rows they stood in. */
export interface LeftOutReadings {
  readonly reason: string;
  readonly count: number;
  readonly origins: readonly RowOrigin[];
}
