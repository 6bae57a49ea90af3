export { effectiveSampleSize } from './effective-sample-size.js';
