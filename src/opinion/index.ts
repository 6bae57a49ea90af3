export { answerOfTrial, type TrialAnswer } from './answer-of-trial.js';
export { countThreats, evidenceFrom, evidenceRules, type ThreatCount, type WeighedThreat } from './evidence.js';
export { formOpinion, type OpinionOptions } from './form-opinion.js';
export type * from './judging/judging.js';
export type { LockPart, VerdictAsLocked } from './lock/lock-part.js';
export type { MarginOrigin } from './margin-of-trial.js';
export type * from './opinion.js';
export { type CoreItem, coreItems } from './threats/core-list.js';
export type { Facts } from './threats/facts.js';
export { searches, weaknessesOf } from './threats/find-threats.js';
export type { Grounds, ThreatNumbers } from './threats/grounds.js';
export {
  type Direction,
  type Finding,
  type Measure,
  type Search,
  type Threat,
  type ThreatDomain,
  threatDomains,
} from './threats/threat.js';
export { type TrialVerdict, verdictOfTrial } from './verdict-of-trial.js';
