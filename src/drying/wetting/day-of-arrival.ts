/** Water came to a height on a day. */
export interface DayOfArrival {
  readonly height_mm: number;
  /** Days since any day that all arrivals share. */
  readonly time_d: number;
}
