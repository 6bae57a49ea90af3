import type { EvidenceCounts, VerdictCounts } from './count-verdicts.js';

/** What was counted of one design under one truth. */
export interface RateRow {
  /** Of `rateDesigns`. */
  readonly design: string;
  /** The true effect in margins. */
  readonly truth: number;
  /** In % by mass, set so that the effect is exactly so many margins. */
  readonly margin: number;
  readonly verdicts: VerdictCounts;
  readonly evidence: EvidenceCounts;
}
