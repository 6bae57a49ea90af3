// The judging: what else could have made, hidden or turned the answer.
export { answerFromReadings, designFromReadings } from './answer-from-readings.js';
export { type BeforeInsidePairs, beforeInsidePairs } from './before-inside-pairs.js';
export { blindingByRole, type PersonBeliefs, type RoleBlinding } from './blinding-by-role.js';
export { type ChecksDrift, checksDrift } from './checks-drift.js';
export { commonPlacesAnswer } from './common-places.js';
export type { CopiedMasses, SamePair } from './copied-masses.js';
export { type CopiedNumbers, copiedNumbers } from './copied-numbers.js';
export type { ComparedVisits, CopiedRuns } from './copied-runs.js';
export { type DaysByArm, daysByArm } from './days-by-arm.js';
export { defensibleAnalyses } from './defensible-analyses.js';
export {
  baselineDifference,
  carryOver,
  type ExpectedFall,
  effectBeforeTreatment,
  effectOutOfReach,
  expectedFall,
  shamAgainstControl,
  untreatedOutside,
} from './find-nothing.js';
export { type Guesses, type GuessesOfRole, guessesBeyondChance } from './guesses-beyond-chance.js';
export {
  type KnowledgeWhereCompared,
  knowledgeWhereCompared,
  type ReaderKnowledge,
} from './knowledge-where-compared.js';
export type { LagOfStandIn } from './lags-of-stand-in.js';
export { type DigitsOf, type LastDigits, lastDigits } from './last-digits.js';
export { type LeftOneOut, leaveOneOut } from './leave-one-out.js';
export {
  type LossAtPlace,
  type LossesByPlace,
  type LostStations,
  lossesByPlace,
  type MissedVisits,
} from './losses-by-place.js';
export { type MissingWalls, missingWalls, worstLimit } from './missing-walls.js';
export {
  answersByInstrument,
  type InstrumentAnswer,
  type SecondaryOutcome,
  secondaryOutcomes,
} from './other-instruments.js';
export { againstPassMark, type PassMarkFound } from './pass-mark.js';
export { type ReadingsByKnowledge, readingsByKnowledge } from './readings-by-knowledge.js';
export {
  type ArmAgainstArm,
  type ScatterAgainstBalance,
  type SpreadTooSmall,
  spreadTooSmall,
  type WallsAgainstStations,
} from './spread-too-small.js';
export type { StandInWall } from './stand-in-walls.js';
export { type ArmMovement, type SurrogateAudit, surrogateAudit } from './surrogate-audit.js';
export { type WallsTooDry, wallsTooDry } from './walls-too-dry.js';
export { withAllBefore } from './with-all-before.js';
