// Reading a trial folder.

// How a folder is told from any other.
export { fingerprint } from './fingerprint.js';
// The valid name that a mistyped one stands for.
export { nearestName } from './nearest-name.js';
export { checkTrial, readTrial, type TrialCheck } from './read-trial.js';
