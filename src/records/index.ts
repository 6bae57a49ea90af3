// Reading a trial folder.

// How one folder is distinguished from any other.
export { fingerprint } from './fingerprint.js';
// The seal of a plan.
export { type LockedFolder, lockFolder } from './lock/lock-folder.js';
export { type SealedPlan, type Sealing, sealedPlan } from './lock/lock-text.js';
export { planJson } from './lock/plan-json.js';
export { sealOfPlan } from './lock/seal-of-plan.js';
// The valid name that a mistyped one stands for.
export { nearestName } from './nearest-name.js';
// A plan by itself, before there is a trial.
export { checkPlan, type PlanCheck, type SizedPlan } from './read-plan.js';
export { checkTrial, type ReadingOptions, readTrial, type TrialCheck } from './read-trial.js';
// Logs of embedded sensors, of any length.
export { SensorLogEngineError } from './sensor-log/open-engine.js';
export { readSensorLog, type SensorLogOptions } from './sensor-log/read-sensor-log.js';
