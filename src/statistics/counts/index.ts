export { type ChiSquareTest, homogeneity, uniformity } from './chi-square-tests.js';
export { type FisherExact, fisherExact, type TwoByTwo } from './fisher-exact.js';
export { type ScoredUnits, scoresOfTreated, type TestOfScores } from './scores-of-treated.js';
