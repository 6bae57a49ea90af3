import { checkSample } from '../../checked-input.js';
import { momentsOf } from '../../estimation/summaries/moments.js';
import { StatisticsError } from '../../statistics-error.js';

/** Each cluster is the list of its values; a value that stands for itself is a cluster of one. */
export type Clusters = readonly (readonly number[])[];

export interface ClusteredGroups {
  readonly treated: Clusters;
  readonly untreated: Clusters;
}

/**
 * What is drawn from again, always whole clusters with all their values:
 *
 * - `one-group`: the mean, for instance of the differences inside pairs;
 * - `two-groups`: treated less untreated, drawn inside each group;
 * - `stratified`: the same inside each stratum, the differences weighted by nt nc / (nt + nc) clusters.
 */
export type BootstrapSample =
  | { readonly kind: 'one-group'; readonly clusters: Clusters }
  | ({ readonly kind: 'two-groups' } & ClusteredGroups)
  | { readonly kind: 'stratified'; readonly strata: readonly ClusteredGroups[] };

/** Whether each cluster counts once, through its mean, or each value. */
export type Weighing = 'clusters' | 'values';

/** Clusters that are drawn among themselves, reduced to what the mean needs. */
export interface ClusterPool {
  /** What the pool's mean is multiplied with in the estimate: 1, -1, or a stratum's share of either. */
  readonly factor: number;
  /** Mean over clusters, or over values. */
  readonly mean: number;
  /** Per cluster: its total (or its mean, where clusters count once) less `mean` times its size. */
  readonly excess: Float64Array;
  /** Per cluster: its number of values, or 1 where clusters count once. */
  readonly size: Float64Array;
}

/**
 * The pools of a sample.
 *
 * @throws StatisticsError `too-few` when a pool holds fewer than two clusters, for then it cannot vary; `not-finite`
 */
export function clusterPools(where: string, sample: BootstrapSample, weighing: Weighing): readonly ClusterPool[] {
  switch (sample.kind) {
    case 'one-group':
      return [clusterPool(where, 'clusters', sample.clusters, weighing, 1)];
    case 'two-groups':
      return poolsOf(where, sample, weighing, 1, '');
    case 'stratified':
      return stratifiedPools(where, sample.strata, weighing);
  }
}

/** The estimate that the pools stand for. */
export function estimateOf(pools: readonly ClusterPool[]): number {
  return pools.reduce((sum, { factor, mean }) => sum + factor * mean, 0);
}

function stratifiedPools(where: string, strata: readonly ClusteredGroups[], weighing: Weighing): ClusterPool[] {
  if (strata.length === 0) throw new StatisticsError(where, 'too-few', 'needs at least 1 stratum, got none; add units');
  const weights = strata.map(({ treated, untreated }) => {
    return (treated.length * untreated.length) / (treated.length + untreated.length);
  });
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return strata.flatMap((stratum, at) => {
    return poolsOf(where, stratum, weighing, (weights[at] as number) / total, ` of stratum ${at}`);
  });
}

function poolsOf(
  where: string,
  groups: ClusteredGroups,
  weighing: Weighing,
  share: number,
  whose: string,
): ClusterPool[] {
  return [
    clusterPool(where, `treated${whose}`, groups.treated, weighing, share),
    clusterPool(where, `untreated${whose}`, groups.untreated, weighing, -share),
  ];
}

function clusterPool(where: string, name: string, clusters: Clusters, weighing: Weighing, factor: number): ClusterPool {
  if (clusters.length < 2) {
    const what = `needs at least 2 clusters in ${name}, got ${clusters.length}`;
    throw new StatisticsError(where, 'too-few', `${what}; add units, or give pairs as one group of differences`);
  }
  for (const [at, cluster] of clusters.entries()) checkSample(where, `${name}, cluster ${at}`, cluster, 1);
  const means = clusters.map((cluster) => momentsOf(cluster).mean);
  const size = Float64Array.from(clusters, (cluster) => (weighing === 'clusters' ? 1 : cluster.length));
  const all = size.reduce((sum, one) => sum + one, 0);
  const centre = momentsOf(means).mean;
  // The mean of deviations from a nearby centre keeps the digits that a sum of large totals would lose.
  const mean = centre + means.reduce((sum, one, at) => sum + (size[at] as number) * (one - centre), 0) / all;
  const excess = Float64Array.from(means, (one, at) => (size[at] as number) * (one - mean));
  return { factor, mean, excess, size };
}
