/** One core and what the meter showed at the same place at nearly the same time. */
export interface CalibrationPair {
  readonly wall: string;
  readonly station: string;
  /** ISO day of the core. */
  readonly day: string;
  /** Of the wall, as `walls.csv` names it; empty where it names none. */
  readonly material: string;
  /** The core's, in the unit of the gravimetric instrument. */
  readonly moisture: number;
  readonly moistureUncertainty?: number;
  /** The meter's mean over its readings of the nearest day. */
  readonly reading: number;
  /** Of that mean, from the scatter of readings repeated on one day and place; absent with fewer than ten such repeats. */
  readonly readingUncertainty?: number;
  /** Days from the core to the meter's readings. */
  readonly daysApart: number;
  /** Between the places of core and reading; absent where both are at one station. */
  readonly distance_mm?: number;
}
