// Randomisation.

export type {
  AllocatedGroups,
  TreatedAndUntreated,
  TreatedAndUntreatedClusters,
} from './randomisation/allocated-groups.js';
export type { AllocationDesign, BlockSizes } from './randomisation/allocation-design.js';
export { countAllocations } from './randomisation/count-allocations.js';
export {
  type RandomisationComputation,
  type RandomisationOptions,
  type RandomisationResult,
  randomisationTest,
} from './randomisation/randomisation-test.js';
export { smallestPossibleP } from './randomisation/smallest-possible-p.js';
