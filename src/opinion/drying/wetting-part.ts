import type { RisingFront, Sorptivity } from '../../drying/index.js';

/** How water came up the walls before their treatment, by embedded sensors; or in one line why nothing is said. */
export type WettingPart =
  | { readonly kind: 'not-shown'; readonly reason: string }
  | { readonly kind: 'shown'; readonly walls: readonly WettingOfWall[] };

export interface WettingOfWall {
  readonly wall: string;
  /** ISO day of the first reading: times are days since its beginning. */
  readonly firstDay: string;
  /** From the lowest sensor up. */
  readonly sensors: readonly SensorAtHeight[];
  /** Absent where the water came to fewer than three heights, or not plainly later the higher they are. */
  readonly front?: RisingFront & {
    /** For the stated water behind the front, volume by volume. */
    readonly sorptivity: Sorptivity;
    readonly moistureBehindFront: number;
  };
}

export type SensorAtHeight = {
  readonly station: string;
  readonly height_mm: number;
} & (
  | { readonly kind: 'arrived'; readonly time_d: number; readonly lower_d: number; readonly upper_d: number }
  | { readonly kind: 'not-arrived'; readonly reason: string }
);
