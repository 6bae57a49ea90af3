import type { VerdictCode } from '../analysis/index.js';

export type Evidence = 'firm' | 'fair' | 'shaky' | 'none';

export type Seriousness = 'minor' | 'serious' | 'fatal';

/** A threat to validity that weighs against the evidence: found, or silence on the core list. */
export interface Weakness {
  /** For instance `readers-knew`. */
  readonly code: string;
  readonly seriousness: Seriousness;
  /** One sentence in plain words, with the numbers that make it so. */
  readonly text: string;
  /** What would have avoided it. */
  readonly remedy: string;
}

export interface Verdict {
  readonly code: VerdictCode;
  /** What a householder understands. */
  readonly sentence: string;
  readonly evidence: Evidence;
  /** The most serious first. */
  readonly weaknesses: readonly Weakness[];
}
