import type { Estimate, NotEstimated } from './estimate.js';

/** An analysis that was made, or the reason why it could not be. */
export type Answer =
  | { readonly kind: 'estimated'; readonly estimate: Estimate }
  | { readonly kind: 'not-estimated'; readonly notEstimated: NotEstimated };
