import type { QuotedRates } from '../planning/error-rates/nearest-rates.js';

/** What stands beside an opinion and is made above it: the opinion never reaches up for it. */
export interface BesideOpinion {
  /** How often each verdict comes out in the nearest simulated design. */
  readonly errorRates?: QuotedRates;
}
