import type { MoistureFault, ReadingRises } from '../moisture/index.js';
import type { StatisticsFault } from '../statistics/index.js';
import type { Compared } from './method.js';
import type { PlainReason } from './plain-reason.js';
import type { UnitKind } from './wall-change.js';

/**
 * Why something could not be reckoned: a code with its numbers. This is the one such type, for answers and for whatever a trial says beside
 * them; its words stand in `labels/reason-in-words.ts`.
 */
export type Reason = { readonly code: PlainReason } | ReasonOfAnswer | ReasonOfInstrument | ReasonOfFinding;

/** Of a comparison of walls. */
type ReasonOfAnswer =
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

/** Of an instrument. */
type ReasonOfInstrument =
  /** What a computation refused, where no better reason is known. */
  | { readonly code: 'refused'; readonly fault: StatisticsFault | MoistureFault }
  | { readonly code: 'not-calibrated'; readonly because: Reason }
  | { readonly code: 'too-few-pairs'; readonly pairs: number; readonly walls: number; readonly needed: number }
  | { readonly code: 'reading-runs-other-way'; readonly readingRises: ReadingRises }
  | { readonly code: 'too-few-walls-by-both'; readonly walls: number; readonly needed: number }
  | { readonly code: 'too-few-checks'; readonly checks: number; readonly blocks: number }
  | { readonly code: 'too-few-reversals'; readonly pairs: number; readonly needed: number }
  /** `walls` have fewer different readings than `needed` in a window. */
  | { readonly code: 'too-few-measured'; readonly needed: 1 | 2; readonly walls: readonly string[] };

/** Of what stands beside the answer. */
type ReasonOfFinding =
  | { readonly code: 'unit-without-mass'; readonly unit: string }
  | { readonly code: 'too-few-visits-after'; readonly needed: number; readonly most: number }
  | { readonly code: 'wall-with-few-visits'; readonly needed: number }
  | { readonly code: 'no-sensors-at-heights'; readonly needed: number }
  | { readonly code: 'too-few-doses'; readonly walls: number; readonly needed: number }
  | {
      readonly code: 'sealed-in-other-unit';
      readonly locked: string;
      readonly now: string;
      readonly instrument: string;
    };

interface Counts {
  readonly treated: number;
  readonly untreated: number;
}
