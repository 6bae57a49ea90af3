import type {
  Answer,
  ExpectedFall,
  InstrumentAnswer,
  LeftOneOut,
  MissingWalls,
  PassMarkFound,
  ReadingsByKnowledge,
  RoleBlinding,
  SecondaryOutcome,
  SurrogateAudit,
} from '../../analysis/index.js';
import type { ConfoundingStrength } from '../../statistics/index.js';
import type { TurningPoints } from './turning-points.js';

/** Everything that could fool a reader of the verdict, with its numbers; nothing of it moves the verdict. */
export interface Judging {
  /** Other defensible answers to the primary question, on its scale. */
  readonly choices: readonly Answer[];
  /** How many answers with an interval, the primary one included, there are and how many lead to the primary verdict. */
  readonly agreement: { readonly agree: number; readonly of: number };
  /** How wrong the primary interval would have to be to change the verdict; absent where there is none to change. */
  readonly turning?: TurningPoints;
  readonly leaveOneOut: readonly LeftOneOut[];
  readonly missing?: MissingWalls;
  readonly blinding: readonly RoleBlinding[];
  readonly knowledge: ReadingsByKnowledge;
  readonly instruments: readonly InstrumentAnswer[];
  /** Tests that should find nothing. */
  readonly nothing: readonly Answer[];
  /** For walls picked for being wet: the expected fall without a treatment, or why it cannot be told. */
  readonly fall?: ExpectedFall | string;
  /** For walls that were not drawn by lot. */
  readonly confounding?: ConfoundingStrength;
  readonly secondary: readonly SecondaryOutcome[];
  /** How the walls stand against the pass mark as published. */
  readonly passMark?: PassMarkFound;
  readonly standIns: readonly StandIn[];
  readonly threats: readonly Threat[];
}

export interface StandIn {
  readonly instrument: string;
  readonly isVoltage: boolean;
  /** Or why there is none. */
  readonly audit: SurrogateAudit | string;
}

/** One thing that could fool a reader: what was found, what follows from it, and what it would take. */
export interface Threat {
  readonly code: string;
  readonly name: string;
  /** What was counted or measured; no inference. */
  readonly fact: string;
  /** `warns`: as large as chance seldom makes it; `quiet`: looked for and not found; `open`: cannot be told from this trial. */
  readonly outcome: 'warns' | 'quiet' | 'open';
  /** Where it would push the result. */
  readonly direction: 'towards the claim' | 'away from the claim' | 'either way';
  /** What it would have to be to change the verdict. */
  readonly turn: string;
  /** What may be concluded. */
  readonly inference: string;
  readonly avoid: string;
}
