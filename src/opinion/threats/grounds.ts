import type {
  Answer,
  BeforeInsidePairs,
  ChecksDrift,
  CopiedNumbers,
  DaysByArm,
  ExpectedFall,
  GuessesOfRole,
  InstrumentAnswer,
  KnowledgeWhereCompared,
  LastDigits,
  LeftOneOut,
  LossesByPlace,
  MissingWalls,
  ReadingsByKnowledge,
  Reason,
  RoleBlinding,
  SpreadTooSmall,
  WallChange,
  WallsTooDry,
} from '../../analysis/index.js';
import type { ElectricalWall } from '../../findings/electrical/electrical-of-trial.js';
import type { InjectionOfTrial } from '../../findings/injection/injection-of-trial.js';
import type { PlasterOfTrial } from '../../findings/plaster/plaster-of-trial.js';
import type { ConfoundingStrength } from '../../statistics/index.js';
import type { TurningPoints } from '../judging/turning-points.js';
import type { Facts } from './facts.js';

/** What was computed to look for threats. */
export interface ThreatNumbers {
  /** How wrong the primary interval would have to be to change the verdict; absent where there is none to change. */
  readonly turning?: TurningPoints;
  readonly leaveOneOut: readonly LeftOneOut[];
  /** Answers by choices that every trial allows: other windows, stations left out, ranks, blocks ignored. */
  readonly choices: readonly Answer[];
  /** The units with their before values from all stations that were read before. */
  readonly atStart: readonly WallChange[];
  readonly before?: BeforeInsidePairs;
  readonly missing?: MissingWalls;
  readonly losses: LossesByPlace;
  /** The answer on heights and depths that both arms kept. */
  readonly commonPlaces: Answer;
  /** By window, how far apart the arms were read. */
  readonly days: Readonly<Partial<Record<'before' | 'after', DaysByArm>>>;
  readonly tooDry?: WallsTooDry;
  readonly checks?: ChecksDrift;
  readonly copied: CopiedNumbers;
  readonly digits: LastDigits;
  readonly spread: SpreadTooSmall;
  /** Who knew what, counted over the after readings that are compared. */
  readonly known: KnowledgeWhereCompared;
  readonly blinding: readonly RoleBlinding[];
  readonly guesses: readonly GuessesOfRole[];
  readonly knowledge: ReadingsByKnowledge;
  readonly instruments: readonly InstrumentAnswer[];
  /** Negative controls: comparisons that should find nothing. */
  readonly nothing: readonly Answer[];
  /** For walls picked for being wet: the expected fall without a treatment, or why it cannot be told. */
  readonly fall?: ExpectedFall | Reason;
  /** Absent where the diary notes no work on plaster. */
  readonly plaster?: PlasterOfTrial;
  /** Absent where no treated wall has an injection on record. */
  readonly injection?: InjectionOfTrial;
  /** Absent without `electrical.csv`. */
  readonly electrical?: readonly ElectricalWall[];
  /** For walls that were not randomised. */
  readonly confounding?: ConfoundingStrength;
}

/** Everything that a search may look at. */
export interface Grounds {
  readonly facts: Facts;
  readonly numbers: ThreatNumbers;
}
