import { verdictOfTrial } from '../../../src/opinion/verdict-of-trial.js';
import type { Trial } from '../../../src/trial/index.js';

export const evidenceWords = ['firm', 'fair', 'shaky', 'none'] as const;
export type EvidenceWord = (typeof evidenceWords)[number];

export interface Judged {
  readonly evidence: EvidenceWord;
  /** Of the threats that weigh: found, or silence on the core list; that no simulated plan was sealed is known, and left out. */
  readonly codes: readonly string[];
}

/** Of the drawn limits of a series; the opinion takes it from the folder's fingerprint. */
const seed = 1;

/** What the package says of a trial: the only place where the simulation asks it. */
export function judge(trial: Trial): Judged {
  const { verdict } = verdictOfTrial(trial, seed);
  const codes = verdict.weaknesses.map(({ code }) => code);
  return { evidence: verdict.evidence, codes: codes.filter((code) => code !== 'plan-not-locked') };
}
