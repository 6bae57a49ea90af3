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
