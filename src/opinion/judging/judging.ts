import type { Answer, PassMarkFound, Reason, SecondaryOutcome, SurrogateAudit } from '../../analysis/index.js';
import type { ThreatNumbers } from '../threats/grounds.js';

/** What stands beside the verdict, and the numbers behind the threats to it. */
export interface Judging extends ThreatNumbers {
  /** Other defensible answers to the primary question, on its scale: those that the threats count, and those with further models. */
  readonly choices: readonly Answer[];
  /** How many answers with an interval, the primary one included, there are and how many lead to the primary verdict. */
  readonly agreement: { readonly agree: number; readonly of: number };
  readonly secondary: readonly SecondaryOutcome[];
  /** How the walls stand against the pass mark as published. */
  readonly passMark?: PassMarkFound;
  readonly standIns: readonly StandIn[];
}

export interface StandIn {
  readonly instrument: string;
  readonly isVoltage: boolean;
  /** Or why there is none. */
  readonly audit: SurrogateAudit | Reason;
}
