export { type Adjustment, adjustedDifference, type WallVisit } from './adjusted-difference.js';
export type { Answer } from './answer.js';
export { type ArmedWalls, type ArmMeans, type ArmWalls, armMeans, wallsByArm } from './arm-means.js';
export { baselineAdjusted } from './baseline-adjusted.js';
export { bootstrapDifference } from './bootstrap-difference.js';
export { clusterRobustDifference } from './cluster-robust-difference.js';
export { compareWalls, type WallComparison, type WallValue } from './compare-walls.js';
export {
  type ComparisonDesign,
  comparisonDesign,
  type DesignOfComparison,
  type Pair,
} from './comparison-design.js';
export { comparisonSides } from './comparison-sides.js';
export { type DifferenceMethod, type DifferenceOfWalls, differenceOfWalls } from './difference-of-walls.js';
export { type DryingObservation, dryingRateRatio, type RateRatioOptions } from './drying-rate-ratio.js';
export { type EffectSizeOptions, effectSizes } from './effect-sizes.js';
export type * from './estimate.js';
export * from './judging/index.js';
export { type MarginFromMark, marginFromMark } from './margin-from-mark.js';
export type * from './method.js';
export { mixedModel } from './mixed-model.js';
export { pairedSeries, pairedSeriesIntervals } from './paired-series.js';
export { type PairedSeriesOptions, pairedSeriesAnswers } from './paired-series-answers.js';
export { pairedSeriesOverPairs } from './paired-series-over-pairs.js';
export type { PlainReason } from './plain-reason.js';
export {
  type EstimateWithInterval,
  type Primary,
  type PrimaryMethod,
  type PrimaryOptions,
  primaryDifference,
} from './primary-difference.js';
export {
  type RandomisationAnalysisOptions,
  randomisation,
  type SeededOptions,
  smallestPOfDesign,
} from './randomisation.js';
export type { Reason } from './reason.js';
export { type SeriesChecks, seriesChecks } from './series-checks.js';
export { fewestSeriesVisits } from './series-model.js';
export { type SeriesOfWalls, type SeriesVisit, seriesOfWalls } from './series-of-walls.js';
export { type StationChanges, stationChanges, withoutWalls } from './station-changes.js';
export { designOfStations, type UnitsOfComparison, unitsOfComparison } from './units-of-comparison.js';
export { type VerdictCode, verdictCode } from './verdict-code.js';
export { mostDaysApart } from './visits-in-step.js';
export type * from './wall-change.js';
export { type WallChanges, wallChanges } from './wall-changes.js';
export { byBlock } from './wall-groups.js';
export { wallsAsOne } from './walls-as-one.js';
