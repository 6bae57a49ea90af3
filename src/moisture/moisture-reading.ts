import type { KnewArm, Recorded, RowOrigin } from '../trial/index.js';

/** A reading in the unit of its instrument, whatever it was recorded as; cores have become moisture by now. */
export interface MoistureReading {
  /** ISO day. */
  readonly day: string;
  readonly wall: string;
  /** Empty for the wall as a whole. */
  readonly station: string;
  readonly instrument: string;
  readonly value: Recorded;
  /** In the value's unit. Absent where nothing is known of it. */
  readonly standardUncertainty?: number;
  readonly reader?: string;
  readonly knewArm?: KnewArm;
  readonly origin: RowOrigin;
}
