// Means of values of which some lie below a limit.
export { type CensoredGroup, type CensoredGroupMeans, censoredGroupMeans } from './censored-group-means.js';
export { type CensoredMean, type CensoredOptions, censoredMean } from './censored-mean.js';
export { type CensoredMeans, censoredMeans } from './censored-means.js';
export type { LeftCensored } from './left-censored.js';
export { type ProductLimitMean, productLimitMean } from './product-limit-mean.js';
