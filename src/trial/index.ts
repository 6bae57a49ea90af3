export { isAmount } from './is-amount.js';
export { isInWindow } from './is-in-window.js';
export { dryBasisUnits, unitsPerPercentByMass } from './moisture-unit.js';
export { monthNames } from './month-names.js';
export {
  describeProblem,
  isTrialFolderError,
  type Problem,
  type Problems,
  TrialFolderError,
} from './problem.js';
export type * from './protocol.js';
export { mostHumidityShown_pct, relativeHumidityAsCounted } from './relative-humidity.js';
export type * from './salts.js';
export { saltIons, saltSchemeNames } from './salts.js';
export type * from './sensor-log.js';
export { leastCoverage } from './sensor-log.js';
export type * from './trial.js';
export { type WaterSource, waterSources } from './water-sources.js';
export { type DayOfWall, daySorter, windowsOf } from './windows-of.js';
