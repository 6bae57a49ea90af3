export { fitNonlinearMixedModel, type NonlinearMixedFit } from './fit-nonlinear-mixed-model.js';
export type { NonlinearMixedModel, RandomParameters } from './nonlinear-mixed-model.js';
