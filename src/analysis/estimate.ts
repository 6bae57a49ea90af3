import type { Interval } from '../statistics/interval.js';

/** The one shape in which every analysis answers, so that one table, one chart and one sensitivity view serve them all. */
export interface Estimate {
  readonly id: string;
  /** What a reader sees, for instance `Difference of changes (Welch)`. */
  readonly label: string;
  readonly quantity: string;
  readonly unit: string;
  readonly estimate: number;
  /** Absent where the design allows none at the stated level; `assumptions` then says why. */
  readonly interval?: Interval;
  readonly standardError?: number;
  readonly degreesOfFreedom?: number;
  readonly pValue?: number;
  readonly method: string;
  readonly assumptions: readonly string[];
  readonly walls: WallCount;
  /** Only for Monte Carlo answers. */
  readonly monteCarlo?: MonteCarlo;
}

export interface WallCount {
  readonly treated: number;
  readonly untreated: number;
}

/** How far chance in the computation itself moves a p-value. */
export interface MonteCarlo {
  readonly seed: number;
  readonly draws: number;
  /** Standard error of the p-value from the finite number of draws. */
  readonly pValueStandardError: number;
}

/** An analysis that could not be made, with the reason in plain words. Never a NaN. */
export interface NotEstimated {
  readonly id: string;
  readonly label: string;
  readonly reason: string;
}
