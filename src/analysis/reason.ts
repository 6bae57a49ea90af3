import type { Compared } from './method.js';
import type { UnitKind } from './wall-change.js';

/** Why something was not estimated: a code with its numbers, whose words stand in `labels/reason-in-words.ts`. */
export type Reason =
  | { readonly code: PlainReason }
  | { readonly code: 'one-station-each' | 'stations-alike' | 'units-no-wider-than-stations'; readonly units: UnitKind }
  | { readonly code: 'no-other-allocation' | 'not-all-before' | 'wall-count-not-unit-count'; readonly units: UnitKind }
  | { readonly code: 'units-do-not-vary'; readonly compared: Compared }
  | { readonly code: 'empty-side' | 'no-replication'; readonly compared: Compared; readonly counts: Counts }
  | {
      readonly code: 'no-degrees-of-freedom';
      readonly compared: Compared;
      readonly counts: Counts;
      readonly blocks: number;
    }
  | {
      readonly code: 'series-too-short';
      readonly before: number;
      readonly after: number;
      readonly needed: number;
      readonly isOfTwo: boolean;
    }
  | { readonly code: 'no-station-above'; readonly height_mm: number }
  | { readonly code: 'too-few-neighbours'; readonly near: number; readonly far: number }
  | { readonly code: 'too-few-stand-in-walls'; readonly walls: number; readonly needed: number }
  | { readonly code: 'walls-without-rate'; readonly without: number; readonly of: number }
  /** `countedTo_d` where the ratio of days counted up to that day stands in for it. */
  | { readonly code: 'not-all-so-far'; readonly late: number; readonly of: number; readonly countedTo_d?: number }
  | { readonly code: 'weather-not-recorded'; readonly names: readonly ('weather' | 'rain' | 'heating')[] };

interface Counts {
  readonly treated: number;
  readonly untreated: number;
}

/** Reasons that need no number. */
export type PlainReason =
  | 'after-is-window'
  | 'apart-before-beyond-plan'
  | 'arm-is-block'
  | 'arms-like-blocks'
  | 'at-target-before'
  | 'before-is-arm'
  | 'before-or-after-do-not-vary'
  | 'changes-do-not-vary'
  | 'curve-not-above-zero'
  | 'curves-not-exponential'
  | 'curves-not-of-drying'
  | 'cutoff-out-of-reach'
  | 'empty-arm'
  | 'no-before'
  | 'no-before-in-comparison'
  | 'no-common-place'
  | 'no-effect'
  | 'no-effect-to-share'
  | 'no-limit-of-reach'
  | 'no-mixed-block'
  | 'no-places'
  | 'no-repeated-day-before'
  | 'no-scale-of-spread'
  | 'no-windows'
  | 'not-an-amount'
  | 'nothing-held-before'
  | 'neighbours-unknown'
  | 'polarity-unknown'
  | 'ratio-needs-positive-means'
  | 'ratio-needs-positive-values'
  | 'screened-unknown'
  | 'series-does-not-vary'
  | 'series-not-judged'
  | 'series-too-steady'
  | 'single-pair'
  | 'stand-in-alike'
  | 'stand-in-is-arm'
  | 'too-few-days-before'
  | 'too-few-in-arm'
  | 'too-few-values'
  | 'too-few-walls'
  | 'treated-alike'
  | 'untreated-mean-near-zero'
  | 'values-do-not-vary'
  | 'visits-do-not-vary';
