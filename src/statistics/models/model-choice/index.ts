export { correctedCriterion, type FittedBySquares } from './corrected-criterion.js';
export { type ModelWeight, modelWeights } from './model-weights.js';
