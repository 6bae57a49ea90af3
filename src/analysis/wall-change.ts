import type { RowOrigin } from '../trial/index.js';

/** The side of the primary comparison on which a wall stands. */
export type Side = 'treated' | 'untreated';

/** What is compared: single walls, or what was allocated as one: sites, blocks, stretches of wall made of strips. */
export type UnitKind = 'wall' | 'site' | 'block' | 'strip';

/** A wall, or several that count as one, with its place in the comparison. */
export interface PlacedWall {
  readonly wall: string;
  readonly arm: string;
  readonly side: Side;
  /** Empty where the wall has no block. */
  readonly block: string;
  /** The walls that count as this one; absent for a wall by itself. */
  readonly unit?: { readonly kind: UnitKind; readonly walls: readonly string[] };
}

/**
 * One wall in the primary comparison: means over the stations that have both a before and an after value. Where no station has
 * both (places named anew), its before is the mean of its before stations and its after that of its after stations.
 */
export interface WallChange extends PlacedWall {
  /** Absent where no wall was read before and after values alone are compared. */
  readonly before?: number;
  readonly after: number;
  /** What is compared, in the outcome's unit: after minus before; the after value itself where `before` is absent. */
  readonly change: number;
  /** How many stations stand behind it. */
  readonly stations: number;
  readonly places: 'same' | 'renamed';
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

/** Why a wall has no place in the comparison; the words stand in `labels/`. */
export type WallLeftOut =
  | { readonly code: 'no-before' | 'no-after' | 'no-before-or-after' }
  | { readonly code: 'other-arm'; readonly arm: string }
  /** The only wall of its block with a change; the block is empty where it has none. */
  | { readonly code: 'alone-in-block'; readonly block: string };

export interface LeftOutWall {
  readonly wall: string;
  readonly reason: WallLeftOut;
}

/** Why a reading is not in the comparison. */
export type ReadingLeftOut =
  | {
      readonly code:
        | 'below-detection'
        | 'no-value'
        | 'no-windows'
        /** Of the before window, taken when its wall had been treated. */
        | 'treated-by-then'
        /** Of the after window, taken before its wall was treated. */
        | 'not-yet-treated'
        | 'other-arm'
        | 'outside'
        | 'station-without-after'
        | 'station-without-before'
        | 'wall-without-partner';
    }
  | { readonly code: 'other-instrument'; readonly instrument: string };

/** Readings left out for one reason, counted, with the rows they stood in. */
export interface LeftOutReadings {
  readonly reason: ReadingLeftOut;
  readonly count: number;
  readonly origins: readonly RowOrigin[];
}
