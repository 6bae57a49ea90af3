import type { ClusterPool } from '../bootstrap/bootstrap-sample.js';

/** Clusters of all groups in one row, as the wild bootstrap needs them. */
export interface WildClusters {
  /** Per cluster: its total, or its mean where clusters count once. */
  readonly total: Float64Array;
  /** Per cluster: its number of values, or 1. */
  readonly size: Float64Array;
  /** Per cluster: 1 where the estimate counts it as treated; in a single group all are. */
  readonly treated: Uint8Array;
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
    treated: Uint8Array.from(pools.flatMap(({ factor, size }) => [...size].map(() => (factor > 0 ? 1 : 0)))),
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
  return Float64Array.from({ length: weights.length / residuals.length }, (_, sample) => {
    const start = sample * residuals.length;
    for (let at = 0; at < turned.length; at++) turned[at] = (residuals[at] as number) * (weights[start + at] as number);
    return studentisedEffect(clusters, turned, 0);
  });
}

/** Cluster totals less what the model with the supposed effect says of them. */
function imposedResiduals({ total, size, treated, sizes }: WildClusters, supposed: number): Float64Array {
  const left = total.map((one, at) => one - supposed * (size[at] as number) * (treated[at] as number));
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
  let sumOfTreated = 0;
  let sumOfUntreated = 0;
  for (let at = 0; at < total.length; at++) {
    if (treated[at] === 1) sumOfTreated += total[at] as number;
    else sumOfUntreated += total[at] as number;
  }
  const meanOfTreated = sumOfTreated / sizes.treated;
  const meanOfUntreated = sizes.untreated > 0 ? sumOfUntreated / sizes.untreated : 0;
  let scatter = 0;
  for (let at = 0; at < total.length; at++) {
    const inTreated = treated[at] === 1;
    const mean = inTreated ? meanOfTreated : meanOfUntreated;
    const share = ((total[at] as number) - mean * (size[at] as number)) / (inTreated ? sizes.treated : sizes.untreated);
    scatter += share * share;
  }
  const values = sizes.treated + sizes.untreated;
  const means = sizes.untreated > 0 ? 2 : 1;
  const correction = ((total.length / (total.length - 1)) * (values - 1)) / (values - means);
  const effect = meanOfTreated - meanOfUntreated - supposed;
  return effect === 0 ? 0 : effect / Math.sqrt(scatter * correction);
}

function sumOf(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0);
}
