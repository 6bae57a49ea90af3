import type { Reason } from '../../analysis/index.js';
import { type Departure, departuresFromLock } from '../../findings/lock/departures-from-lock.js';
import { trialAsLocked } from '../../findings/lock/trial-as-locked.js';
import { present } from '../../plain/present.js';
import type { Trial } from '../../trial/index.js';
import type { Verdict } from '../verdict.js';
import { type TrialVerdict, verdictOfTrial } from '../verdict-of-trial.js';

/** The seal of a plan, what departs from it, and the verdict by the plan as it was sealed. */
export interface LockPart {
  readonly lockedOn: string;
  readonly version: string;
  readonly sha256: string;
  readonly departures: readonly Departure[];
  readonly asLocked: VerdictAsLocked;
}

export type VerdictAsLocked =
  | { readonly kind: 'the-same' }
  | ({ readonly kind: 'judged' } & Pick<Verdict, 'code' | 'evidence'> & {
        readonly margin?: number;
        readonly unit: string;
        readonly primary: TrialVerdict['facts']['primary'];
      })
  | { readonly kind: 'not-possible'; readonly reason: Reason };

/**
 * What the seal of a plan says of a trial; nothing where no plan was sealed.
 *
 * @param seed of the verdict as locked, as of the verdict itself
 */
export function lockPart(trial: Trial, seed: number): LockPart | undefined {
  const { lock } = trial;
  if (lock === undefined) return undefined;
  const { lockedOn, version, sha256 } = lock;
  const departures = departuresFromLock(trial);
  return { lockedOn, version, sha256, departures, asLocked: verdictAsLocked(trial, departures, seed) };
}

function verdictAsLocked(trial: Trial, departures: readonly Departure[], seed: number): VerdictAsLocked {
  if (departures.length === 0) return { kind: 'the-same' };
  const locked = trialAsLocked(trial);
  if (locked === undefined) return { kind: 'the-same' };
  if (locked.kind === 'not-possible') return locked;
  const judged = verdictOfTrial(locked.trial, seed);
  const { margin, outcome } = judged.trial.protocol;
  const { code, evidence } = judged.verdict;
  return {
    ...{ kind: 'judged', code, evidence, unit: outcome.unit, primary: judged.facts.primary },
    ...present({ margin }),
  };
}
