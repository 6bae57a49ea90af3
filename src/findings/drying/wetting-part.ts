import type { Reason } from '../../analysis/index.js';
import type { EvaporatingFront, RisingFront, RootTimeTest, Sorptivity } from '../../drying/index.js';
import type { MoistureOfWall } from './moisture-behind-front.js';
import type { SensorAtHeight } from './sensor-at-height.js';

export type { SensorAtHeight } from './sensor-at-height.js';

/** How water came up the walls before their treatment, by embedded sensors; or why nothing is said. */
export type WettingPart =
  | { readonly kind: 'not-shown'; readonly reason: Reason }
  | { readonly kind: 'shown'; readonly walls: readonly WettingOfWall[] };

export interface WettingOfWall {
  readonly wall: string;
  /** ISO day of the first reading: times are days since its beginning. */
  readonly firstDay: string;
  /** From the lowest sensor up. */
  readonly sensors: readonly SensorAtHeight[];
  /** Absent where the water came to fewer than three heights, or not plainly later the higher they are. */
  readonly front?: FrontOfWall;
}

export interface FrontOfWall extends RisingFront {
  /** By the root of time. */
  readonly sorptivity: Sorptivity;
  readonly moistureBehindFront: MoistureOfWall;
  /** Whether the front kept to the root of time; absent with arrivals at fewer than four heights. */
  readonly rootTime?: RootTimeTest & { readonly isBent: boolean };
  /** The same arrivals with evaporation; absent where they do not limit it. */
  readonly evaporating?: EvaporatingFront & {
    readonly sorptivity: Sorptivity;
    /** Of both faces together, for the same water behind the front; absent without a thickness or a rest. */
    readonly evaporation_mm_d?: number;
  };
}
