import type { BootstrapSample, ClusterPool } from '../bootstrap/bootstrap-sample.js';

/** The clusters of all strata and groups in one row, as least squares of their values on stratum and group needs them. */
export interface WildClusters {
  /** Per cluster: its total, or its mean where clusters count once. */
  readonly total: Float64Array;
  /** Per cluster: its number of values, or 1. */
  readonly size: Float64Array;
  /** Per cluster: the place of its stratum. */
  readonly stratum: Int32Array;
  /** Values (or clusters) in each stratum; empty for a single group, which has no other parameter than its mean. */
  readonly inStratum: Float64Array;
  /** Per cluster: 1 for treated and 0 for untreated, less the stratum's mean of that; in a single group 1. */
  readonly treatment: Float64Array;
  /** Sum of the squared treatments over values. */
  readonly squares: number;
  /** Per cluster: what share of its own total enters the fitted one. */
  readonly leverage: Float64Array;
}

/** @param pools in every stratum the treated and then the untreated */
export function wildClusters(kind: BootstrapSample['kind'], pools: readonly ClusterPool[]): WildClusters {
  const clusters = pools.flatMap(({ excess, size, mean }, pool) =>
    [...excess].map((one, at) => {
      const own = size[at] as number;
      return { total: one + own * mean, size: own, stratum: pool >> 1, treated: 1 - (pool & 1) };
    }),
  );
  const single = kind === 'one-group';
  const inStratum = new Float64Array(single ? 0 : pools.length / 2);
  const treatedIn = new Float64Array(inStratum.length);
  if (!single) {
    for (const { size, stratum, treated } of clusters) {
      inStratum[stratum] = (inStratum[stratum] as number) + size;
      treatedIn[stratum] = (treatedIn[stratum] as number) + size * treated;
    }
  }
  const treatment = Float64Array.from(clusters, ({ stratum, treated }) => {
    return single ? 1 : treated - (treatedIn[stratum] as number) / (inStratum[stratum] as number);
  });
  const squares = clusters.reduce((sum, { size }, at) => sum + size * (treatment[at] as number) ** 2, 0);
  return {
    total: Float64Array.from(clusters, ({ total }) => total),
    size: Float64Array.from(clusters, ({ size }) => size),
    stratum: Int32Array.from(clusters, ({ stratum }) => stratum),
    inStratum,
    treatment,
    squares,
    leverage: Float64Array.from(clusters, ({ size, stratum }, at) => {
      const ofMean = single ? 0 : 1 / (inStratum[stratum] as number);
      return size * (ofMean + (treatment[at] as number) ** 2 / squares);
    }),
  };
}

export interface WildFit {
  readonly effect: number;
  /** From the jackknife over clusters. */
  readonly standardError: number;
  /** Per cluster: its total's distance from what the other clusters say of it. */
  readonly residuals: Float64Array;
}

/**
 * The effect in the totals, and its jackknife standard error: the residuals over 1 less their leverage, that is from the fit
 * without their cluster, with the factor (G - 1) / G for G clusters (CV3 of MacKinnon, Nielsen and Webb 2023).
 */
export function wildFit(clusters: WildClusters, total: Float64Array): WildFit {
  const { size, stratum, inStratum, treatment, squares, leverage } = clusters;
  const means = new Float64Array(inStratum.length);
  let effect = 0;
  for (let at = 0; at < total.length; at++) {
    const one = total[at] as number;
    effect += ((treatment[at] as number) * one) / squares;
    const where = stratum[at] as number;
    if (where < means.length) means[where] = (means[where] as number) + one / (inStratum[where] as number);
  }
  const residuals = new Float64Array(total.length);
  let scatter = 0;
  for (let at = 0; at < total.length; at++) {
    const fitted = (means[stratum[at] as number] ?? 0) + effect * (treatment[at] as number);
    const residual = ((total[at] as number) - (size[at] as number) * fitted) / (1 - (leverage[at] as number));
    residuals[at] = residual;
    scatter += ((treatment[at] as number) * residual) ** 2;
  }
  const standardError = Math.sqrt((scatter * (total.length - 1)) / total.length) / squares;
  return { effect, standardError, residuals };
}

/**
 * Student's t of each wild sample: the residuals of the data, turned and stretched cluster by cluster. Infinite where a sample
 * has an effect but no scatter.
 *
 * @param weights one row per sample, one column per cluster
 */
export function wildStatistics(clusters: WildClusters, residuals: Float64Array, weights: Float64Array): Float64Array {
  const turned = new Float64Array(residuals.length);
  const statistics = new Float64Array(weights.length / residuals.length);
  for (let sample = 0, start = 0; sample < statistics.length; sample++, start += turned.length) {
    for (let at = 0; at < turned.length; at++) turned[at] = (residuals[at] as number) * (weights[start + at] as number);
    const { effect, standardError } = wildFit(clusters, turned);
    // Scatter that is nothing but rounding is none.
    statistics[sample] = effect === 0 ? 0 : effect / (standardError > 1e-12 * Math.abs(effect) ? standardError : 0);
  }
  return statistics;
}
