// General statistics: results, and what is thrown where there can be none.

// Comparison of means.
export {
	type BlockOfGroups,
	blocked,
	type GroupSizes,
	type LevelOption,
	type MeanComparison,
	paired,
	pooled,
	pooledSpread,
	welch,
} from "./comparison/index.js";
export type { Interval } from "./interval.js";
// Random numbers from a seed.
export {
	integerBelow,
	normalDraws,
	type RandomStream,
	randomStream,
	shuffled,
	uniform,
} from "./random/index.js";
export {
	isStatisticsError,
	StatisticsError,
	type StatisticsFault,
} from "./statistics-error.js";
