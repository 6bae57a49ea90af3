// Why a plan allows no answer.

export { isPlanningError, PlanningError, type PlanningFault } from './planning-error.js';

// How many walls.

export type { ChangeVariance, Sampling, Spreads } from './walls-needed/change-variance.js';
export { changeVariance } from './walls-needed/change-variance.js';
export {
  type Costs,
  cheapestDesign,
  costOf,
  type DesignGrid,
  type DesignRow,
  designTable,
  gridAround,
} from './walls-needed/design-table.js';
export type { PlannedComparison } from './walls-needed/difference-errors.js';
export { expectedWidth, smallestShown } from './walls-needed/interval-width.js';
export { type PilotSpreads, pilotSpreads } from './walls-needed/pilot-spreads.js';
export { plannedChances, type UncertainComparison } from './walls-needed/planned-chances.js';
export { designOfSize, type PlannedDesign, wallsOfDesign } from './walls-needed/planned-design.js';
export { type PlannedSeries, type SeriesChances, seriesChances } from './walls-needed/series-chances.js';
export type { UncertainWalls } from './walls-needed/uncertain-walls.js';
export { type VerdictChances, verdictChances } from './walls-needed/verdict-chances.js';
export { type ChanceWanted, type WallsNeeded, wallsNeeded } from './walls-needed/walls-needed.js';
