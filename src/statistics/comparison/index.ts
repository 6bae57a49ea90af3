// Comparison of means.
export { type BlockOfGroups, blocked } from './blocked.js';
export type {
  GroupSizes,
  LevelOption,
  MeanComparison,
} from './mean-comparison.js';
export { paired } from './paired.js';
export { pooled, pooledSpread } from './pooled.js';
export { welch } from './welch.js';
