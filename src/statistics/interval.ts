/** A confidence interval: the level is a fraction such as 0.95. A limit is infinite only where the documentation says so. */
export interface Interval {
  readonly level: number;
  readonly lower: number;
  readonly upper: number;
}
