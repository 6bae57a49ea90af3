import type { ClusterPool } from '../bootstrap/bootstrap-sample.js';

/** Clusters of all groups in one row, the treated first, as the wild bootstrap needs them. */
export interface WildClusters {
  /** Per cluster: its total, or its mean where clusters count once. */
  readonly total: Float64Array;
  /** Per cluster: its number of values, or 1. */
  readonly size: Float64Array;
  /** How many clusters are treated; in a single group all are. */
  readonly treated: number;
  /** Values (or clusters) among the treated and among the untreated, the latter 0 in a single group. */
  readonly sizes: { readonly treated: number; readonly untreated: number };
}

export function wildClusters(pools: readonly ClusterPool[]): WildClusters {
  const sizeOf = (sign: number) => {
    return pools.filter(({ factor }) => factor === sign).reduce((sum, { size }) => sum + sumOf(size), 0);
  };
  return {
    total: Float64Array.from(
      pools.flatMap(({ excess, size, mean }) => [...excess].map((one, at) => one + (size[at] as number) * mean)),
    ),
    size: Float64Array.from(pools.flatMap(({ size }) => [...size])),
    treated: pools.filter(({ factor }) => factor > 0).reduce((sum, { size }) => sum + size.length, 0),
    sizes: { treated: sizeOf(1), untreated: sizeOf(-1) },
  };
}

/** The share of wild samples whose |t| against the supposed effect is at least that of the data, which counts as one of them. */
export function wildP(clusters: WildClusters, supposed: number, weights: Float64Array): number {
  const observed = Math.abs(studentisedEffect(clusters, clusters.total, supposed)) * (1 - 1e-10);
  const statistics = wildStatistics(clusters, supposed, weights);
  let count = 1;
  for (const statistic of statistics) if (Math.abs(statistic) >= observed) count++;
  return count / (statistics.length + 1);
}

/**
 * Student's t of each wild sample against the supposed effect: residuals of the model with that effect imposed, turned and
 * stretched cluster by cluster.
 *
 * @param weights one row per sample, one column per cluster
 */
export function wildStatistics(clusters: WildClusters, supposed: number, weights: Float64Array): Float64Array {
  const residuals = imposedResiduals(clusters, supposed);
  const turned = new Float64Array(residuals.length);
  const statistics = new Float64Array(weights.length / residuals.length);
  for (let sample = 0, start = 0; sample < statistics.length; sample++, start += turned.length) {
    for (let at = 0; at < turned.length; at++) turned[at] = (residuals[at] as number) * (weights[start + at] as number);
    statistics[sample] = studentisedEffect(clusters, turned, 0);
  }
  return statistics;
}

/** Cluster totals less what the model with the supposed effect says of them. */
function imposedResiduals({ total, size, treated, sizes }: WildClusters, supposed: number): Float64Array {
  const left = total.map((one, at) => (at < treated ? one - supposed * (size[at] as number) : one));
  // A single group has no other parameter than the effect itself.
  const common = sizes.untreated === 0 ? 0 : sumOf(left) / (sizes.treated + sizes.untreated);
  return left.map((one, at) => one - common * (size[at] as number));
}

/**
 * The effect in totals less the supposed one, over its cluster-robust standard error with the usual correction
 * G/(G - 1) (N - 1)/(N - k) for G clusters, N values and k means. 0 where there is neither effect nor scatter.
 */
export function studentisedEffect(
  { size, treated, sizes }: WildClusters,
  total: Float64Array,
  supposed: number,
): number {
  const meanOfTreated = sumBetween(total, 0, treated) / sizes.treated;
  const meanOfUntreated = sizes.untreated > 0 ? sumBetween(total, treated, total.length) / sizes.untreated : 0;
  let scatterOfTreated = 0;
  for (let at = 0; at < treated; at++) {
    scatterOfTreated += ((total[at] as number) - meanOfTreated * (size[at] as number)) ** 2;
  }
  let scatterOfUntreated = 0;
  for (let at = treated; at < total.length; at++) {
    scatterOfUntreated += ((total[at] as number) - meanOfUntreated * (size[at] as number)) ** 2;
  }
  const ofUntreated = sizes.untreated > 0 ? scatterOfUntreated / sizes.untreated ** 2 : 0;
  const scatter = scatterOfTreated / sizes.treated ** 2 + ofUntreated;
  const values = sizes.treated + sizes.untreated;
  const means = sizes.untreated > 0 ? 2 : 1;
  const correction = ((total.length / (total.length - 1)) * (values - 1)) / (values - means);
  const effect = meanOfTreated - meanOfUntreated - supposed;
  return effect === 0 ? 0 : effect / Math.sqrt(scatter * correction);
}

function sumBetween(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let at = from; at < to; at++) sum += values[at] as number;
  return sum;
}

function sumOf(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0);
}
