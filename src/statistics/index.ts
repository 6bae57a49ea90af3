// A table of contents; a blank line keeps each heading with its group when the formatter sorts.

// Given in the examples of the doc comments: six units of two arms measured twice each, and a series that steps down.
//
//   const unit = ['a', 'a', 'b', 'b', 'c', 'c', 'd', 'd', 'e', 'e', 'f', 'f'];
//   const arm = unit.map((name) => (name < 'd' ? 'control' : 'treated'));
//   const response = [9.1, 8.7, 10.2, 10.0, 8.8, 9.5, 7.2, 7.6, 8.1, 7.0, 6.9, 7.7];
//   const terms = [intercept(), factor('arm', arm, { reference: 'control' })];
//   const fit = leastSquares(designMatrix(terms), response);
//   const random = [{ name: 'unit', groups: unit }];
//   const mixedFit = fitMixedModel({ response, fixed: designMatrix(terms), random, method: 'reml' });
//   const series = {
//     design: stepDesign([0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1]),
//     response: [5.1, 5.4, 5.2, 4.9, 5.0, 5.3, 4.4, 4.2, 4.5, 4.7, 4.1, 4.3],
//     times: [0, 31, 59, 92, 120, 153, 182, 215, 240, 275, 303, 336],
//   };

// Intervals, and what is thrown where there can be no answer.

export type { Interval } from './interval.js';
export type { Inversion } from './numerics/inversion.js';
export { isStatisticsError, StatisticsError, type StatisticsFault } from './statistics-error.js';

// Distributions: density, both tails, quantiles from either side.

export {
  beta,
  binomial,
  chiSquare,
  type Distribution,
  fisherF,
  gamma,
  noncentralityInterval,
  noncentralT,
  normal,
  studentisedRange,
  studentT,
} from './distributions/index.js';

// Comparison of means.

export {
  type BlockOfGroups,
  blocked,
  type EstimatePair,
  type GroupSizes,
  type HodgesLehmann,
  type HodgesLehmannOptions,
  hodgesLehmann,
  hodgesLehmannPaired,
  type LevelOption,
  type MeanComparison,
  mannWhitney,
  paired,
  pooled,
  pooledSpread,
  type RankTest,
  type RatioOfEstimates,
  type RatioOfMeans,
  type RatioOptions,
  ratioOfEstimates,
  ratioOfMeans,
  signedRank,
  type TrimOptions,
  trimmed,
  welch,
} from './estimation/comparison/index.js';

// Linear models: designs from plain columns, least squares, contrasts, errors that hold inside clusters.

export {
  type ClusterAxis,
  type ClusterPart,
  type ClusterRobustFit,
  type Coefficient,
  type ContrastOptions,
  type ContrastWeights,
  type CovariateTerm,
  clusterRobust,
  clusterRobustContrast,
  contrast,
  covariate,
  type DesignColumn,
  type DesignMatrix,
  type DesignTerm,
  designMatrix,
  differenceOfWeights,
  type EstimatedMean,
  estimatedMeans,
  type FactorOptions,
  type FactorTerm,
  factor,
  type InteractionTerm,
  type InterceptTerm,
  influence,
  interaction,
  intercept,
  type LeastSquaresFit,
  leastSquares,
  type MeanDifference,
  type MeanWeights,
  meanDifferences,
  meanWeights,
  type ObservationInfluence,
  type TEstimate,
  type VarianceRobustOptions,
  varianceRobustContrast,
} from './models/linear/index.js';

// Effect sizes.

export {
  type GlassDelta,
  type GlassSummary,
  glassDelta,
  glassDeltaOfGroups,
  type HedgesG,
  hedgesG,
  hedgesGOfGroups,
  type LogResponseRatio,
  logResponseRatio,
  type ProbabilityOfSuperiority,
  probabilityOfSuperiority,
  type StandardisedSummary,
  smallSampleCorrection,
} from './estimation/effect-size/index.js';

// Decisions.

export {
  type Better,
  benjaminiHochberg,
  type ConfidencePoint,
  confidenceCurve,
  type Equivalence,
  equivalence,
  fixedSequence,
  hochberg,
  holm,
  type JudgedEstimate,
  type MinimumEffect,
  minimumEffect,
  type NonInferiority,
  nonInferiority,
  type Precision,
  powerOfT,
  type SequenceStep,
  smallestDetectable,
} from './estimation/decisions/index.js';

// Counts: exact and chi-square tests of tables, and scores of treated units under all allocations.

export {
  type ChiSquareTest,
  type FisherExact,
  fisherExact,
  homogeneity,
  type Proportion,
  type ProportionOptions,
  proportion,
  type RiskDifference,
  riskDifference,
  type ScoredUnits,
  scoresOfTreated,
  type TestOfScores,
  type TwoByTwo,
  uniformity,
} from './estimation/counts/index.js';

// Was an arm guessed: blinding indices.

export {
  type ArmGuesses,
  type BangIndex,
  bangIndex,
  type JamesIndex,
  jamesIndex,
} from './estimation/blinding/index.js';

// What would turn the answer: missing units, hidden causes, selection by value.

export {
  type BoundsOfDifference,
  boundsOfDifference,
  type ConfoundingStrength,
  confoundingOfDifference,
  confoundingOfRatio,
  type RegressionToTheMean,
  regressionToTheMean,
  type SelectionByValue,
  type ShiftToTarget,
  shiftToTarget,
} from './estimation/sensitivity/index.js';

// Bayes: posterior of a difference under a stated prior.

export {
  type NormalPrior,
  normalPrior,
  type Posterior,
  type PosteriorOptions,
  type Prior,
  posteriorOfDifference,
} from './estimation/bayes/index.js';

// Random numbers from a seed.

export {
  integerBelow,
  normalDraws,
  type RandomStream,
  randomStream,
  shuffled,
  uniform,
} from './resampling/random/index.js';

// Resampling.

export {
  type AllocatedGroups,
  type AllocationConstraint,
  type AllocationDesign,
  type BlockSizes,
  type BootstrapMethod,
  type BootstrapOfOptions,
  type BootstrapOfResult,
  type BootstrapOptions,
  type BootstrapResult,
  type BootstrapSample,
  bootstrap,
  bootstrapInParallel,
  bootstrapOf,
  type ClusteredGroups,
  type Clusters,
  countAllocations,
  type ParallelBootstrapOptions,
  type RandomisationComputation,
  type RandomisationOptions,
  type RandomisationResult,
  randomisationTest,
  type SmallSample,
  smallestPossibleP,
  type TreatedAndUntreated,
  type TreatedAndUntreatedClusters,
  type Weighing,
  type WildClusterOptions,
  type WildClusterResult,
  wildClusterTest,
} from './resampling/index.js';

// Summaries of a sample.

export { autocorrelation } from './estimation/summaries/autocorrelation.js';
export { compensatedSum } from './estimation/summaries/compensated-sum.js';
export { extremes } from './estimation/summaries/extremes.js';
export { interquartileRange } from './estimation/summaries/interquartile-range.js';
export { type KernelDensity, kernelDensity } from './estimation/summaries/kernel-density.js';
export { mean } from './estimation/summaries/mean.js';
export { median } from './estimation/summaries/median.js';
export { medianAbsoluteDeviation } from './estimation/summaries/median-absolute-deviation.js';
export { quantile } from './estimation/summaries/quantile.js';
export { standardDeviation } from './estimation/summaries/standard-deviation.js';
export { variance } from './estimation/summaries/variance.js';
export { weightedMean } from './estimation/summaries/weighted-mean.js';

// One-way analysis of variance.

export {
  type OneWayAnalysis,
  oneWayAnalysis,
  type SourceOfVariation,
} from './estimation/analysis-of-variance/one-way.js';

// Linear mixed models: restricted and plain maximum likelihood, small-sample tests of fixed effects, variance components.

export {
  type ComponentInterval,
  fitMixedModel,
  type IntraclassCorrelation,
  intraclassCorrelation,
  type JointTest,
  kenwardRoger,
  kenwardRogerCovariance,
  kenwardRogerJoint,
  type LikelihoodRatioTest,
  likelihoodRatioTest,
  type MixedModel,
  type MixedModelFit,
  type ParametricBootstrapOptions,
  type ParametricBootstrapTest,
  parametricBootstrapTest,
  profileIntervals,
  type RandomTerm,
  type RandomTermFit,
  type ResidualFit,
  type ResidualStructure,
  satterthwaite,
  satterthwaiteJoint,
  simulateResponse,
} from './models/mixed/index.js';

// Nonlinear models: least squares, intervals from the profile of the sum of squares.

export {
  type Convergence,
  type HeldParameter,
  type NonlinearFit,
  type NonlinearParameter,
  type NonlinearProblem,
  nonlinearLeastSquares,
  type ParameterBounds,
  type ParameterValues,
  profileInterval,
  type StartOutcome,
} from './models/nonlinear/index.js';

// Nonlinear mixed models: curves that units share in shape and not in size.

export {
  fitNonlinearMixedModel,
  type NonlinearMixedFit,
  type NonlinearMixedModel,
  type RandomParameters,
} from './models/nonlinear-mixed/index.js';

// Straight lines where both variables carry errors.

export {
  type DemingLine,
  type DemingOptions,
  deming,
  errorRatio,
  type FittedLine,
  type InversePrediction,
  inverseAt,
  type LinePrediction,
  type LineWithout,
  type MeasuredPairs,
  type PredictionOptions,
  predictedAt,
  type UncertainPairs,
  type YorkLine,
  type YorkLineByGroups,
  type YorkOptions,
  york,
  yorkByGroups,
  yorkWithoutEach,
} from './estimation/errors-in-variables/index.js';

// Curves of which only the direction is known.

export {
  type BetweenPoints,
  type IsotonicData,
  type IsotonicDirection,
  type IsotonicFit,
  type IsotonicLevel,
  isotonicAt,
  isotonicRegression,
} from './estimation/isotonic/index.js';

// Correlation, by values and by ranks.

export { type Correlation, pearson, spearman } from './estimation/association/index.js';

// Agreement of two methods, and of several readers.

export {
  type AgreementOptions,
  type Concordance,
  concordance,
  type IntraclassOfGroups,
  intraclassOfGroups,
  type KappaOptions,
  type LimitsOfAgreement,
  type LimitWithInterval,
  limitsOfAgreement,
  limitsOfRepeated,
  type PrecisionOfReaders,
  type ReadByBoth,
  type RepeatedReadings,
  repeatability,
  type WeightedKappa,
  weightedKappa,
} from './estimation/agreement/index.js';

// Means of values of which some lie below a limit.

export {
  type CensoredGroup,
  type CensoredGroupMeans,
  type CensoredMean,
  type CensoredMeans,
  type CensoredOptions,
  censoredGroupMeans,
  censoredMean,
  censoredMeans,
  type LeftCensored,
  type ProductLimitMean,
  productLimitMean,
} from './estimation/censored/index.js';

// Times to an event: product-limit estimate.

export {
  type EventMass,
  type IntervalCensored,
  type IntervalTime,
  intervalCensored,
} from './estimation/survival/interval-censored.js';
export { type ClusteredTime, type LogRank, logRank } from './estimation/survival/log-rank.js';
export {
  type FollowedTime,
  type ProductLimit,
  type ProductLimitStep,
  productLimit,
  type RestrictedMean,
  restrictedMean,
  survivingAt,
} from './estimation/survival/product-limit.js';

// Choice among models of the same observations, and where a series steps or bends.

export {
  correctedCriterion,
  type FittedBySquares,
  type ModelWeight,
  modelWeights,
} from './models/model-choice/index.js';
export {
  type BentCurve,
  type BentCurveData,
  bentCurve,
  type ChangeInMean,
  changeInMean,
  type Slope,
} from './series/change-point/index.js';

// Series in time: what neighbouring values that resemble each other are worth.

export {
  type AutoregressiveContrastOptions,
  type AutoregressiveFit,
  type AveragedContrast,
  type AveragedContrastOptions,
  autoregressiveContrast,
  autoregressiveLeastSquares,
  averagedContrast,
  averagedIntervals,
  effectiveSampleSize,
  type NeweyWestContrast,
  type NeweyWestOptions,
  neweyWestContrast,
  type PlaceboDate,
  type PlaceboOptions,
  placeboDates,
  type SeriesRegression,
  stepAndSlopeDesign,
  stepDesign,
} from './series/time-series/index.js';

// Uncertainty of a result from its inputs: budgets, changes, and Monte Carlo as their check.

export {
  type BudgetCheck,
  type BudgetOptions,
  type BudgetRow,
  type BudgetTerm,
  budgetAgainstMonteCarlo,
  budgetOfDifference,
  budgetOfTerms,
  type Coverage,
  type CoverageOption,
  correlationOfResults,
  type DifferenceOptions,
  type InputCorrelation,
  type InputDistribution,
  type InputQuantity,
  inputFromHalfWidth,
  inputFromReadings,
  type MeasurementModel,
  type MonteCarloOptions,
  type MonteCarloResult,
  monteCarloUncertainty,
  sensitivityCoefficient,
  type UncertaintyBudget,
  uncertaintyBudget,
} from './estimation/uncertainty/index.js';
