export { type ChiSquareTest, homogeneity, uniformity } from './chi-square-tests.js';
export { type FisherExact, fisherExact, type TwoByTwo } from './fisher-exact.js';
export { type Proportion, type ProportionOptions, proportion } from './proportion-interval.js';
export { type RiskDifference, riskDifference } from './risk-difference.js';
export { type ScoredUnits, scoresOfTreated, type TestOfScores } from './scores-of-treated.js';
