import type { QuotedRates } from '../planning/error-rates/nearest-rates.js';
import type { NextTrial } from '../planning/next-trial/next-trial.js';

/** What stands beside an opinion and is made above it: the opinion never reaches up for it. */
export interface BesideOpinion {
  /** How often each verdict comes out in the nearest simulated design. */
  readonly errorRates?: QuotedRates;
  /** The trial that would settle what this one leaves open; absent where nothing is. */
  readonly nextTrial?: NextTrial;
}
