export type * from './commission.js';
export type { ElectricalRecord } from './electrical.js';
export { isAmount } from './is-amount.js';
export { isInWindow } from './is-in-window.js';
export { dryBasisUnits, unitsPerPercentByMass } from './moisture-unit.js';
export { monthNames } from './month-names.js';
export type * from './plan-lock.js';
export type * from './planning.js';
export {
  describeProblem,
  isTrialFolderError,
  type Problem,
  type Problems,
  TrialFolderError,
} from './problem.js';
export type * from './protocol.js';
export {
  type ColumnRead,
  type DateOrder,
  describeMended,
  describeNotUsed,
  type Mended,
  type NotUsed,
  type ReadingLedger,
  type TableRead,
} from './reading-ledger.js';
export { mostHumidityShown_pct, mostHumidityShownMark, relativeHumidityAsCounted } from './relative-humidity.js';
export type * from './salts.js';
export { saltIons, saltSchemeNames } from './salts.js';
export { secondsOf } from './seconds-of.js';
export type * from './sensor-log.js';
export { leastCoverage } from './sensor-log.js';
export type * from './trial.js';
export { type WaterSource, waterSources } from './water-sources.js';
export { weighingNoise_g, weighingOf } from './weighing-noise.js';
export { type DayOfWall, daySorter, hasWindows, windowSorter, windowsOf } from './windows-of.js';
