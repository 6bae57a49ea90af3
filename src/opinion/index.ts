export type { AirBeside, AirOfArm, AirOfArms } from './air/air-of-arms.js';
export type { DryingFacts } from './drying/drying-facts.js';
export type * from './drying/drying-part.js';
export type { AirLimit, ImpliedEvaporation, ImpliedOfArm, ImpliedOfWall } from './drying/implied-evaporation.js';
export type { TreatmentSpread } from './drying/starts-of-walls.js';
export type { TimedWall, WaitOfOneWall, WaitOfTrial, WaitOfWall } from './drying/wait-of-trial.js';
export type * from './drying/wetting-part.js';
export { evidenceFrom, evidenceRules } from './evidence.js';
export { formOpinion, type OpinionOptions } from './form-opinion.js';
export type * from './judging/judging.js';
export {
  type CompetingVoltage,
  competingVoltages,
  type LedgerEntry,
  plausibilityLedger,
} from './judging/voltage-ledger.js';
export type { MarginOrigin } from './margin-of-trial.js';
export type * from './opinion.js';
export { type RenderedOpinion, renderOpinion } from './render-opinion.js';
export { summaryInWords } from './summary-in-words.js';
export type { TwoWallSeries } from './two-walls/two-wall-series.js';
export { verdictCode } from './verdict-code.js';
export { OutputFolderError, writeOpinion } from './write-opinion.js';
