// A table of contents; a blank line keeps each heading with its group when the formatter sorts.

// Intervals, and what is thrown where there can be no answer.

export type { Interval } from './interval.js';
export { isStatisticsError, StatisticsError, type StatisticsFault } from './statistics-error.js';

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
} from './comparison/index.js';

// Random numbers from a seed.

export { integerBelow, normalDraws, type RandomStream, randomStream, shuffled, uniform } from './random/index.js';
