export type { AirBeside, AirOfArm, AirOfArms } from './air/air-of-arms.js';
export type { DryingFacts } from './drying/drying-facts.js';
export type * from './drying/drying-part.js';
export type { AirLimit, ImpliedEvaporation, ImpliedOfArm, ImpliedOfWall } from './drying/implied-evaporation.js';
export type { TreatmentSpread } from './drying/starts-of-walls.js';
export type { TimedWall, WaitOfOneWall, WaitOfTrial, WaitOfWall } from './drying/wait-of-trial.js';
export type * from './drying/wetting-part.js';
export { countThreats, evidenceFrom, evidenceRules, type ThreatCount, type WeighedThreat } from './evidence.js';
export { formOpinion, type OpinionOptions } from './form-opinion.js';
export type * from './judging/judging.js';
export {
  type CompetingVoltage,
  competingVoltages,
  type LedgerEntry,
  plausibilityLedger,
} from './judging/voltage-ledger.js';
export type { LockPart, VerdictAsLocked } from './lock/lock-part.js';
export type { MarginOrigin } from './margin-of-trial.js';
export type * from './opinion.js';

export { type RenderedOpinion, renderOpinion } from './render-opinion.js';
export { summaryInWords } from './summary-in-words.js';
export { type CoreItem, coreItems } from './threats/core-list.js';
export type { Facts } from './threats/facts.js';
export { searches, weaknessesOf } from './threats/find-threats.js';
export type { Grounds, ThreatNumbers } from './threats/grounds.js';
export { type LimitMark, limits } from './threats/limits.js';
export {
  type Direction,
  type Finding,
  type Measure,
  type Search,
  type Threat,
  type ThreatDomain,
  threatDomains,
} from './threats/threat.js';
export type { TwoWallSeries } from './two-walls/two-wall-series.js';
export { verdictCode } from './verdict-code.js';
export { type TrialVerdict, verdictOfTrial } from './verdict-of-trial.js';
export { OutputFolderError, writeOpinion } from './write-opinion.js';
