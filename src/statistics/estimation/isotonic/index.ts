export { type BetweenPoints, isotonicAt } from './isotonic-at.js';
export {
  type IsotonicData,
  type IsotonicDirection,
  type IsotonicFit,
  type IsotonicLevel,
  isotonicRegression,
} from './isotonic-regression.js';
