import type { Interval } from '../statistics/index.js';
import type { Method } from './method.js';
import type { Reason } from './reason.js';

/** Which analysis: its id, and of a family of analyses which member. Its name in words stands in `labels/`. */
export interface Named {
  readonly id: string;
  readonly about?: About;
}

/** What an analysis is about, where its id alone does not say: facts of the trial, no words. */
export type About =
  | { readonly kind: 'outcome'; readonly quantity: string; readonly instrument: string }
  | { readonly kind: 'instrument'; readonly instrument: string }
  | { readonly kind: 'height'; readonly height_mm: number }
  | { readonly kind: 'depth'; readonly depth_mm: number }
  | { readonly kind: 'station'; readonly wall: string; readonly station: string }
  | { readonly kind: 'without'; readonly of: 'wall' | 'site' | 'block' | 'strip' | 'reader'; readonly left: string }
  | { readonly kind: 'one-wall'; readonly wall: string }
  /** `days` since the drying began; `dryBelow` where it is the days until a moisture that the plan calls dry. */
  | { readonly kind: 'drying'; readonly days: number; readonly dryBelow?: number; readonly unit?: string }
  | { readonly kind: 'adjustments'; readonly names: readonly string[] }
  | { readonly kind: 'pooled-pairs' };

/** The one shape in which every analysis answers, so that one table, one chart and one sensitivity view serve them all. */
export interface Estimate extends Named {
  readonly unit: string;
  readonly estimate: number;
  /** Absent where the design allows none at the stated level; `method` then says why. */
  readonly interval?: Interval;
  readonly standardError?: number;
  readonly degreesOfFreedom?: number;
  readonly pValue?: number;
  /** How it was made: what varies from trial to trial, as facts. */
  readonly method: Method;
  readonly walls: WallCount;
  /** Only for Monte Carlo answers. */
  readonly monteCarlo?: MonteCarlo;
  /** Of several answers of a kind, the one that stands for them. */
  readonly endOf?: { readonly end: 'lowest' | 'highest'; readonly answers: number };
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

/** An analysis that could not be made, with the reason as a code and its numbers. Never a NaN. */
export interface NotEstimated extends Named {
  readonly reason: Reason;
}
