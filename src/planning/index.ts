// How often a verdict misleads: counted in simulated trials, and quoted for the nearest design.

export type { EvidenceCounts, VerdictCounts } from './error-rates/count-verdicts.js';
export {
  nearestRates,
  type QuotedRates,
  type RateDifference,
  type UnitsOfArms,
} from './error-rates/nearest-rates.js';
export { type QuickVerdict, quickVerdict } from './error-rates/quick-verdict.js';
export { type RateDesign, type RateTrouble, rateDesigns } from './error-rates/rate-designs.js';

// Simulated walls: whole trials whose truth is known.

export { type SimulatedTrial, simulateTrial } from './simulated-wall/simulate-trial.js';
export { type SimulatedChanges, simulateChanges } from './simulated-wall/simulated-changes.js';
export {
  plainDesign,
  type ReadersKnow,
  type SimulatedDesign,
  type SimulatedLayout,
  type SimulatedTreatment,
} from './simulated-wall/simulated-design.js';
export type { TrueChange, TruthOfTrial } from './simulated-wall/truth-of-trial.js';
export { writeSimulatedTrial } from './simulated-wall/write-simulated-trial.js';
