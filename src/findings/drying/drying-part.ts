import type { Answer, Reason } from '../../analysis/index.js';
import type { DryingModelKind } from '../../drying/index.js';
import type { LogRank } from '../../statistics/index.js';
import type { DryingFacts } from './drying-facts.js';
import type { WallCurve, WallWithoutCurve } from './wall-curve.js';

export type { WallCurve } from './wall-curve.js';

/** What the opinion says of drying over time, or why it shows no curves; and what can be told without them. */
export type DryingPart = DryingNotShown | DryingShown;

export interface DryingNotShown extends DryingFacts {
  readonly kind: 'not-shown';
  readonly reason: Reason;
}

export interface DryingShown extends DryingFacts {
  readonly kind: 'shown';
  /** ISO day from which time is counted for the first wall: for each wall it counts from its own treatment or that of its partners. */
  readonly start: string;
  /** The same for the last wall. */
  readonly lastStart: string;
  /** Whether those are days of treatment, or, where none was recorded, the end of the before window. */
  readonly startIs: 'treatment' | 'end-of-before-window';
  readonly curves: readonly WallCurve[];
  /** Means over the walls of each arm, treated arms first. */
  readonly means: readonly MeansOfArm[];
  readonly leftOut: readonly WallWithoutCurve[];
  /** The longest time that all curves cover, in days. */
  readonly period_d: number;
  /** How long the trade waits before it judges walls as thick as the thinnest and the thickest; absent where no thickness is on record. */
  readonly prompt?: { readonly thickness_mm: Range; readonly days: Range };
  readonly answers: readonly Answer[];
  /** Means over the walls of each arm, in the outcome's unit, over the days that all curves cover. */
  readonly losses: readonly {
    readonly arm: string;
    readonly walls: number;
    readonly start: number;
    readonly lost: number;
    readonly lostIn30Days: number;
    /** Absent where a curve does not begin wet. */
    readonly index?: number;
  }[];
  /** The shape that AICc puts first, walls counted; `none` where they do not fall beyond the scatter of their readings. */
  readonly shapes: readonly { readonly shape: DryingModelKind | 'none'; readonly walls: number }[];
  /** Where that shape has two stages: the day on which a constant rate gave way to a falling one. */
  readonly changes: readonly {
    readonly wall: string;
    readonly day: number;
    /** Absent where the readings do not limit it. */
    readonly interval?: { readonly level: number; readonly lower: number; readonly upper: number };
  }[];
  /** Absent where the plan states no margin. */
  readonly times?: TimesToFall;
  /** Absent where the plan does not say at which moisture a wall is dry. */
  readonly timesToDry?: TimesToDry;
  /** Differences of changes adjusted for season and weather. */
  readonly adjusted: readonly Answer[];
  /** Weekly means of how much more vapour pressure a wet wall has than the air; absent without a record of the air. */
  readonly weather?: readonly { readonly day: string; readonly pressure_pa: number }[];
}

interface Range {
  readonly least: number;
  readonly most: number;
}

/** An arm at each visit on which at least half of its walls were read; limits of the mean where two or more were. */
export interface MeansOfArm {
  readonly arm: string;
  readonly visits: readonly {
    readonly day: string;
    readonly mean: number;
    readonly lower?: number;
    readonly upper?: number;
  }[];
}

/** Until a wall stood lower than at the start by the margin, and stayed so. */
export interface TimesToFall extends TimesOfArms {
  readonly fall: number;
}

/** Until a wall stood at or below the moisture that the plan calls dry, and stayed so. */
export interface TimesToDry extends TimesOfArms {
  readonly limit: number;
}

export interface TimesOfArms {
  readonly arms: readonly {
    readonly arm: string;
    readonly walls: number;
    /** Walls that came so far by their last visit. */
    readonly fallen: number;
    /** Day by which half of the walls had; absent where half had not. */
    readonly median_d?: number;
    /** Visits between which half of them came to, days; absent where half had not. */
    readonly medianBetween_d?: { readonly after: number; readonly by: number };
    /** On the days of `days`: the share not yet so far, by the product limit, and the walls still followed that were not. */
    readonly course: readonly { readonly notYet?: number; readonly followed: number }[];
  }[];
  /** On which the course is told. */
  readonly days: readonly number[];
  readonly logRank?: LogRank;
}
