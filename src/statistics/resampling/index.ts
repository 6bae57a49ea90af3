// Randomisation.

export type {
  AllocatedGroups,
  TreatedAndUntreated,
  TreatedAndUntreatedClusters,
} from './randomisation/allocated-groups.js';
export type { AllocationDesign, BlockSizes } from './randomisation/allocation-design.js';
export { countAllocations } from './randomisation/count-allocations.js';
export type { AllocationConstraint } from './randomisation/kept-allocations.js';
export {
  type RandomisationComputation,
  type RandomisationOptions,
  type RandomisationResult,
  randomisationTest,
} from './randomisation/randomisation-test.js';
export { smallestPossibleP } from './randomisation/smallest-possible-p.js';

// Bootstrap.

export {
  type BootstrapMethod,
  type BootstrapOptions,
  type BootstrapResult,
  bootstrap,
} from './bootstrap/bootstrap.js';
export { type BootstrapOfOptions, type BootstrapOfResult, bootstrapOf } from './bootstrap/bootstrap-of.js';
export type { BootstrapSample, ClusteredGroups, Clusters, Weighing } from './bootstrap/bootstrap-sample.js';
export type { SmallSample } from './bootstrap/small-sample.js';

// Wild cluster bootstrap.

export { type WildClusterOptions, type WildClusterResult, wildClusterTest } from './wild-cluster/wild-cluster-test.js';
