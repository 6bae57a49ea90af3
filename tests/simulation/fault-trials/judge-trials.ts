import { type Base, type Fault, type FaultBase, MARGIN, plant, soundTrialFor } from '../fault-trials.js';
import { type EvidenceWord, evidenceWords, type Judged, judge } from './judge.js';

/** Trial number 0 has this seed, the next the one after it. */
export const SEED = 20261001;
/** So many trials of each row are kept one by one: a row of which one comes out otherwise is stale. */
export const FIRST = 20;

/** What was said of one trial with a fault, and of the same trial without it. */
export interface FaultOutcome {
  readonly isFound: boolean;
  readonly isFalseAlarm: boolean;
  readonly evidence: EvidenceWord;
}

export interface FaultRow {
  readonly name: string;
  /** With the fault, and as many without it. */
  readonly trials: number;
  readonly found: number;
  readonly falseAlarms: number;
  readonly evidence: Readonly<Record<EvidenceWord, number>>;
  readonly first: readonly FaultOutcome[];
}

export interface SoundRow {
  readonly design: Base['design'];
  readonly effect: number;
  readonly trials: number;
  readonly evidence: Readonly<Record<EvidenceWord, number>>;
  /** What was found in trials of which nothing is wrong, and how often. */
  readonly codes: Readonly<Record<string, number>>;
  readonly first: readonly Judged[];
}

export interface FaultsFile {
  readonly source: string;
  readonly seed: number;
  readonly faults: readonly FaultRow[];
  readonly sound: readonly SoundRow[];
}

export const soundRows: readonly { readonly design: Base['design']; readonly effect: number }[] = (
  ['complete', 'pairs'] as const
).flatMap((design) => [0, -MARGIN, -2 * MARGIN].map((effect) => ({ design, effect })));

/** Sound trials are judged once for all the faults that are planted in them. */
type JudgeSound = (from: FaultBase) => Judged;

export function soundJudge(number: number): JudgeSound {
  const known = new Map<string, Judged>();
  return (from) => {
    const key = JSON.stringify(from);
    const judged = known.get(key) ?? judge(soundTrialFor({ in: from }, SEED + number));
    known.set(key, judged);
    return judged;
  };
}

export function judgeFault(fault: Fault, number: number, judgeSound: JudgeSound): FaultOutcome {
  const seed = SEED + number;
  const { evidence, codes } = judge(plant(fault, soundTrialFor(fault, seed), seed));
  const isSeen = (found: readonly string[]) => fault.codes.some((code) => found.includes(code));
  return { isFound: isSeen(codes), isFalseAlarm: isSeen(judgeSound(fault.in).codes), evidence };
}

/** The row of a fault from what was said of its trials, in the order of their numbers. */
export function faultRow(name: string, outcomes: readonly FaultOutcome[]): FaultRow {
  return {
    name,
    trials: outcomes.length,
    found: outcomes.filter(({ isFound }) => isFound).length,
    falseAlarms: outcomes.filter(({ isFalseAlarm }) => isFalseAlarm).length,
    evidence: countedWords(outcomes),
    first: outcomes.slice(0, FIRST),
  };
}

export function soundRow(base: Pick<SoundRow, 'design' | 'effect'>, judged: readonly Judged[]): SoundRow {
  return {
    ...base,
    trials: judged.length,
    evidence: countedWords(judged),
    codes: countedCodes(judged),
    first: judged.slice(0, FIRST),
  };
}

function countedWords(judged: readonly { readonly evidence: EvidenceWord }[]): Record<EvidenceWord, number> {
  const count = (word: EvidenceWord) => judged.filter(({ evidence }) => evidence === word).length;
  const [firm, fair, shaky, none] = evidenceWords.map(count);
  return { firm: firm ?? 0, fair: fair ?? 0, shaky: shaky ?? 0, none: none ?? 0 };
}

function countedCodes(judged: readonly Judged[]): Record<string, number> {
  const counts = new Map<string, number>();
  for (const { codes } of judged) for (const code of new Set(codes)) counts.set(code, (counts.get(code) ?? 0) + 1);
  return Object.fromEntries([...counts].sort(([, one], [, other]) => other - one));
}
