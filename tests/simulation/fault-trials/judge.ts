import { formOpinion } from '../../../src/opinion/index.js';
import type { Trial } from '../../../src/trial/index.js';

export const evidenceWords = ['firm', 'fair', 'shaky', 'none'] as const;
export type EvidenceWord = (typeof evidenceWords)[number];

export interface Judged {
  readonly evidence: EvidenceWord;
  /** Of everything that was looked for and found. */
  readonly codes: readonly string[];
}

/** What the package says of a trial: the only place where the simulation asks it. */
export function judge(trial: Trial): Judged {
  const { verdict, judging } = formOpinion(trial);
  const warning = (judging?.threats ?? []).filter(({ outcome }) => outcome === 'warns');
  return { evidence: verdict.evidence, codes: [...verdict.weaknesses, ...warning].map(({ code }) => code) };
}
