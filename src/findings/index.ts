export type { AirBeside, AirOfArm, AirOfArms } from './air/air-of-arms.js';
export type { DryingFacts } from './drying/drying-facts.js';
export type * from './drying/drying-part.js';
export type { AirLimit, ImpliedEvaporation, ImpliedOfArm, ImpliedOfWall } from './drying/implied-evaporation.js';
export type { TreatmentSpread } from './drying/starts-of-walls.js';
export type { TimedWall, WaitOfOneWall, WaitOfTrial, WaitOfWall } from './drying/wait-of-trial.js';
export type * from './drying/wetting-part.js';
export { type LimitMark, limits } from './limits.js';
export type { Measurement } from './measurement.js';
export {
  type CompetingVoltage,
  competingVoltages,
  type LedgerEntry,
  plausibilityLedger,
} from './potentials/voltage-ledger.js';
export type { Timeline, TimelineEvent } from './timeline.js';
export type { TwoWallSeries } from './two-walls/two-wall-series.js';
