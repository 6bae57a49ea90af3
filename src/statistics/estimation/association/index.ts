export { type Correlation, pearson, spearman } from './correlation.js';
