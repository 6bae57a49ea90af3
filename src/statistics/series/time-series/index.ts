export { type AutoregressiveContrastOptions, autoregressiveContrast } from './autoregressive-contrast.js';
export { type AutoregressiveFit, autoregressiveLeastSquares } from './autoregressive-least-squares.js';
export {
  type AveragedContrast,
  type AveragedContrastOptions,
  averagedContrast,
  averagedIntervals,
} from './averaged-contrast.js';
export { stepAndSlopeDesign, stepDesign } from './change-design.js';
export { effectiveSampleSize } from './effective-sample-size.js';
export { type NeweyWestContrast, type NeweyWestOptions, neweyWestContrast } from './newey-west-contrast.js';
export { type PlaceboDate, type PlaceboOptions, placeboDates } from './placebo-dates.js';
export type { SeriesRegression } from './series-regression.js';
