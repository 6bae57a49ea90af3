// Why a plan allows no answer.

export { isPlanningError, PlanningError, type PlanningFault } from './planning-error.js';

// Which walls, when and where.

export {
  type AllocationPlan,
  type ArmCount,
  allocateWalls,
  type WallAllocation,
  type WallToAllocate,
} from './allocation/allocate-walls.js';
export { wallCodes } from './allocation/wall-codes.js';
export { type ReadingPlace, readingPlaces } from './calendar/reading-places.js';
export {
  type CalendarDeparture,
  type CalendarQuestion,
  type CalendarWait,
  type PlannedVisit,
  type TrialCalendar,
  trialCalendar,
} from './calendar/trial-calendar.js';

// How many walls: by closed forms, and by simulation.

export {
  type CountedChances,
  type SimulatedChances,
  type SimulationOptions,
  simulatedChances,
} from './simulated-chances/simulated-chances.js';

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

// What would settle what an opinion leaves open.

export { type NextSize, type NextTrial, type NextWay, nextTrial } from './next-trial/next-trial.js';

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
