export { type BoundsOfDifference, boundsOfDifference } from './bounds-of-difference.js';
export { type ConfoundingStrength, confoundingOfDifference } from './confounding-strength.js';
export { type RegressionToTheMean, regressionToTheMean, type SelectionByValue } from './regression-to-the-mean.js';
