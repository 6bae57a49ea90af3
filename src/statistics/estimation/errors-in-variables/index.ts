// Straight lines where both variables carry errors.
export type { MeasuredPairs } from './check-pairs.js';
export { type DemingLine, type DemingOptions, deming, type LineWithout } from './deming.js';
export { errorRatio } from './error-ratio.js';
export {
  type FittedLine,
  type InversePrediction,
  inverseAt,
  type LinePrediction,
  type PredictionOptions,
  predictedAt,
} from './fitted-line.js';
export { type UncertainPairs, type YorkLine, type YorkOptions, york } from './york.js';
export { type YorkLineByGroups, yorkByGroups } from './york-by-groups.js';
export { yorkWithoutEach } from './york-without-each.js';
