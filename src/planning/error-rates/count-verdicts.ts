import type { VerdictCode } from '../../analysis/index.js';
import type { Evidence } from '../../opinion/opinion.js';
import { verdictOfTrial } from '../../opinion/verdict-of-trial.js';
import { simulateTrial } from '../simulated-wall/simulate-trial.js';
import type { SimulatedDesign } from '../simulated-wall/simulated-design.js';
import { quickVerdict } from './quick-verdict.js';

/** How often each verdict came out, and the coverage of the interval. */
export interface VerdictCounts {
  readonly trials: number;
  readonly codes: Readonly<Partial<Record<VerdictCode, number>>>;
  /** Trials that gave an interval. */
  readonly intervals: number;
  readonly held: number;
  readonly meanHalfWidth: number;
}

/** How often each evidence word came out, with all threats looked for. */
export interface EvidenceCounts {
  readonly trials: number;
  readonly words: Readonly<Partial<Record<Evidence, number>>>;
}

/** A range of trials of one design: their seeds follow each other. */
export interface TrialRange {
  readonly seed: number;
  readonly trials: number;
}

/**
 * Counts verdicts over simulated trials.
 *
 * @param effect the mean fall that the treatment causes, % by mass: the truth that intervals should hold
 */
export function countVerdicts(design: SimulatedDesign, effect: number, { seed, trials }: TrialRange): VerdictCounts {
  const codes: Partial<Record<VerdictCode, number>> = {};
  let [intervals, held, halfWidths] = [0, 0, 0];
  for (let trial = 0; trial < trials; trial++) {
    const { code, primary } = quickVerdict(design, seed + trial);
    codes[code] = (codes[code] ?? 0) + 1;
    if (primary.kind === 'not-estimated') continue;
    const { lower, upper } = primary.estimate.interval;
    intervals++;
    held += Number(lower <= -effect && -effect <= upper);
    halfWidths += (upper - lower) / 2;
  }
  return { trials, codes, intervals, held, meanHalfWidth: intervals === 0 ? 0 : halfWidths / intervals };
}

/** Counts evidence words over simulated trials: slower, for every threat is looked for. */
export function countEvidence(design: SimulatedDesign, { seed, trials }: TrialRange): EvidenceCounts {
  const words: Partial<Record<Evidence, number>> = {};
  for (let trial = 0; trial < trials; trial++) {
    const { evidence } = verdictOfTrial(simulateTrial(design, seed + trial).trial, 1).verdict;
    words[evidence] = (words[evidence] ?? 0) + 1;
  }
  return { trials, words };
}
