// Comparison of means.

export { type BlockOfGroups, blocked } from './blocked.js';
export { type HodgesLehmann, type HodgesLehmannOptions, hodgesLehmann, hodgesLehmannPaired } from './hodges-lehmann.js';
export type { GroupSizes, LevelOption, MeanComparison } from './mean-comparison.js';
export { paired } from './paired.js';
export { pooled, pooledSpread } from './pooled.js';
export { mannWhitney, type RankTest, signedRank } from './rank-tests.js';
export { type EstimatePair, type RatioOfEstimates, ratioOfEstimates } from './ratio-of-estimates.js';
export { type RatioOfMeans, type RatioOptions, ratioOfMeans } from './ratio-of-means.js';
export { type TrimOptions, trimmed } from './trimmed.js';
export { welch } from './welch.js';
