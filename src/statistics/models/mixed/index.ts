// Linear mixed models: fits, tests of fixed effects, comparisons of models, intervals of variance components.
export type { JointTest } from './contrast-test.js';
export { fitMixedModel } from './fit-mixed-model.js';
export { type IntraclassCorrelation, intraclassCorrelation } from './intraclass-correlation.js';
export { kenwardRoger, kenwardRogerJoint } from './kenward-roger.js';
export { type LikelihoodRatioTest, likelihoodRatioTest } from './likelihood-ratio-test.js';
export type { MixedModel, RandomTerm, ResidualStructure } from './mixed-model.js';
export type { MixedModelFit, RandomTermFit, ResidualFit } from './mixed-model-fit.js';
export {
  type ParametricBootstrapOptions,
  type ParametricBootstrapTest,
  parametricBootstrapTest,
} from './parametric-bootstrap-test.js';
export { type ComponentInterval, profileIntervals } from './profile-intervals.js';
export { satterthwaite, satterthwaiteJoint } from './satterthwaite.js';
export { simulateResponse } from './simulate-response.js';
