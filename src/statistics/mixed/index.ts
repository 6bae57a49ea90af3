// Linear mixed models: fits, tests of fixed effects.
export type { JointTest } from './contrast-test.js';
export { fitMixedModel } from './fit-mixed-model.js';
export { kenwardRoger, kenwardRogerCovariance, kenwardRogerJoint } from './kenward-roger.js';
export type { MixedModel, RandomTerm, ResidualStructure } from './mixed-model.js';
export type { MixedModelFit, RandomTermFit, ResidualFit } from './mixed-model-fit.js';
export { satterthwaite, satterthwaiteJoint } from './satterthwaite.js';
