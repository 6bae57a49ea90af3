// Bayes.

export {
  type Posterior,
  type PosteriorOptions,
  posteriorOfDifference,
} from './posterior-of-difference.js';
export { type NormalPrior, normalPrior, type Prior } from './prior.js';
