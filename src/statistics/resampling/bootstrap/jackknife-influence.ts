import type { ClusterPool } from './bootstrap-sample.js';

/** Each cluster's influence on the estimate by the jackknife: n - 1 times the decrease when it is left out. */
export function jackknifeInfluence({ factor, excess, size }: ClusterPool): Float64Array {
  const all = size.reduce((sum, one) => sum + one, 0);
  return excess.map((one, at) => ((excess.length - 1) * factor * one) / (all - (size[at] as number)));
}
