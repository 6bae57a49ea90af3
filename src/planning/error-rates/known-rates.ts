import type { RateRow } from './rate-row.js';

/** Made by `npm run coverage:verdicts`; not edited by hand. */
export const knownRates: readonly RateRow[] = [];
