export type { ClusterAxis } from './cluster-axes.js';
export { type ClusterPart, type ClusterRobustFit, clusterRobust } from './cluster-robust.js';
export { clusterRobustContrast } from './cluster-robust-contrast.js';
export { type ContrastOptions, contrast } from './contrast.js';
export type { ContrastWeights } from './contrast-weights.js';
export { type DesignColumn, type DesignMatrix, designMatrix } from './design-matrix.js';
export {
  type CovariateTerm,
  covariate,
  type DesignTerm,
  type FactorOptions,
  type FactorTerm,
  factor,
  type InteractionTerm,
  type InterceptTerm,
  interaction,
  intercept,
} from './design-term.js';
export { type EstimatedMean, estimatedMeans } from './estimated-means.js';
export { influence, type ObservationInfluence } from './influence.js';
export { type Coefficient, type LeastSquaresFit, leastSquares } from './least-squares.js';
export { type MeanDifference, meanDifferences } from './mean-differences.js';
export { differenceOfWeights, type MeanWeights, meanWeights } from './mean-weights.js';
export type { TEstimate } from './t-estimate.js';
export { type VarianceRobustOptions, varianceRobustContrast } from './variance-robust-contrast.js';
