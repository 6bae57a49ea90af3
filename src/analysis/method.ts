import type { AllocationMethod } from '../trial/index.js';
import type { DifferenceMethod } from './difference-method.js';
import type { UnitKind } from './wall-change.js';

/** What is compared: which units, and which number of each. */
export interface Compared {
  readonly units: UnitKind;
  /** `after` where nothing was read before the treatment. */
  readonly value: 'change' | 'after';
}

/** How an estimate was made, in facts that vary from trial to trial; the words that go with each stand in `labels/`. */
export type Method =
  | { readonly kind: DifferenceMethod; readonly compared: Compared }
  | { readonly kind: 'baseline-adjusted'; readonly compared: Compared; readonly isBlocked: boolean }
  | RandomisationFacts
  | {
      readonly kind: 'bootstrap';
      readonly compared: Compared;
      readonly limits: 'bca' | 'studentised';
      readonly draws: number;
      readonly drawn: 'pairs' | 'units';
    }
  | {
      readonly kind: 'cluster-robust';
      readonly compared: Compared;
      readonly isBlocked: boolean;
      readonly cluster: 'pair' | 'unit';
      /** Whether it rests on too few degrees of freedom to be trusted. */
      readonly isWeak: boolean;
    }
  | {
      readonly kind: 'mixed-model';
      readonly compared: Compared;
      readonly isBlocked: boolean;
      readonly hasWallsInside: boolean;
      /** Random terms whose estimated variance is zero. */
      readonly boundary: readonly string[];
    }
  | { readonly kind: EffectSizeKind; readonly compared: Compared }
  | {
      readonly kind: 'wall-values';
      readonly scale: 'difference' | 'ratio';
      readonly difference: DifferenceMethod;
      /** What of each wall is compared, where the id does not say it. */
      readonly quantity?: string;
      /** Of a rate for each wall: walls whose curve an exponential describes best, of all walls. */
      readonly exponential?: { readonly walls: number; readonly of: number };
    }
  | { readonly kind: 'adjusted'; readonly season: boolean; readonly weather: readonly string[] }
  | { readonly kind: 'rate-ratio'; readonly season: boolean; readonly isBlocked: boolean }
  | {
      readonly kind: 'paired-series';
      readonly visits: number;
      readonly visitsApart: number;
      readonly matchedPlaces: number;
    }
  | { readonly kind: 'paired-series-fitted' | 'paired-series-trend' | 'paired-series-weather' }
  | { readonly kind: 'paired-series-robust'; readonly seed: number }
  | { readonly kind: 'paired-series-pooled'; readonly pairs: number; readonly of: number }
  | { readonly kind: 'rank-shift' }
  | { readonly kind: 'neighbours' }
  | { readonly kind: 'fieller' }
  | { readonly kind: 'mean-after'; readonly quantity: string }
  | { readonly kind: 'stand-in-slope'; readonly quantity: string }
  | { readonly kind: 'share-explained'; readonly isBlocked: boolean }
  | { readonly kind: 'calibrated'; readonly quantity: string }
  | { readonly kind: 'below-likelihood' | 'below-product-limit' };

export type EffectSizeKind = 'hedges-g' | 'glass-delta' | 'log-response-ratio' | 'probability-of-superiority';

export interface RandomisationFacts {
  readonly kind: 'randomisation';
  readonly compared: Compared;
  readonly allocation: AllocationMethod;
  readonly isExact: boolean;
  /** All that could have been drawn where `isExact`, else those that were drawn. */
  readonly allocations: number;
  readonly smallestP: number;
  /** Allocations whose sides differed by more before, in the outcome's unit, were drawn again. */
  readonly mostBeforeDifference?: number;
  /** Probability with which such intervals include the truth, where the design is so coarse that it exceeds the level. */
  readonly attainedLevel?: number;
}
