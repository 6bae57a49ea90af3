import { checkSample } from '../../checked-input.js';
import type { AllocationDesign } from './allocation-design.js';

/** The responses of the units of one block. */
export interface TreatedAndUntreated {
  readonly treated: readonly number[];
  readonly untreated: readonly number[];
}

/** Clusters, each a list of the responses of its units. */
export interface TreatedAndUntreatedClusters {
  readonly treated: readonly (readonly number[])[];
  readonly untreated: readonly (readonly number[])[];
}

/** Responses as they were allocated; the kinds are those of `AllocationDesign`. */
export type AllocatedGroups =
  | ({ readonly kind: 'complete' } & TreatedAndUntreated)
  | { readonly kind: 'blocked'; readonly blocks: readonly TreatedAndUntreated[] }
  | ({ readonly kind: 'clustered' } & TreatedAndUntreatedClusters);

/** The design behind the responses: how many were treated, and inside what. */
export function designOf(groups: AllocatedGroups): AllocationDesign {
  if (groups.kind !== 'blocked') return { kind: groups.kind, ...sizesOf(groups) };
  return { kind: 'blocked', blocks: groups.blocks.map(sizesOf) };
}

function sizesOf(block: { readonly treated: readonly unknown[]; readonly untreated: readonly unknown[] }) {
  return { treated: block.treated.length, untreated: block.untreated.length };
}

/** The units that were allocated, in their blocks; a cluster is one unit and answers by its mean. */
export function unitsInBlocks(groups: AllocatedGroups): readonly TreatedAndUntreated[] {
  switch (groups.kind) {
    case 'complete':
      return [checked(groups, '')];
    case 'blocked':
      return groups.blocks.map((block, at) => checked(block, ` of block ${at}`));
    case 'clustered':
      return [
        { treated: clusterMeans('treated', groups.treated), untreated: clusterMeans('untreated', groups.untreated) },
      ];
  }
}

function checked(block: TreatedAndUntreated, whose: string): TreatedAndUntreated {
  checkSample('randomisationTest', `treated${whose}`, block.treated, 0);
  checkSample('randomisationTest', `untreated${whose}`, block.untreated, 0);
  return block;
}

function clusterMeans(group: string, clusters: readonly (readonly number[])[]): number[] {
  return clusters.map((cluster, at) => {
    checkSample('randomisationTest', `${group} cluster ${at}`, cluster, 1);
    return cluster.reduce((sum, value) => sum + value, 0) / cluster.length;
  });
}
