import { integerBelow } from '../random/integer-below.js';
import { type RandomStream, streamsOf } from '../random/random-stream.js';
import type { ClusterPool } from './bootstrap-sample.js';

/** Estimates of the samples drawn, each less the estimate of the data, and their standard errors. */
export interface Replicates {
  readonly deviations: Float64Array;
  readonly standardErrors: Float64Array;
}

/** So many draws belong to one random stream: chunk k always draws from stream k. */
export const chunkSize = 1000;

/** All draws, chunk after chunk. */
export function allReplicates(pools: readonly ClusterPool[], seed: number, draws: number): Replicates {
  const all = { deviations: new Float64Array(draws), standardErrors: new Float64Array(draws) };
  const prepared = pools.map(prepare);
  const streamOf = streamsOf(seed);
  for (let chunk = 0; chunk * chunkSize < draws; chunk++) {
    const from = chunk * chunkSize;
    drawChunk(prepared, streamOf(chunk), all, from, Math.min(from + chunkSize, draws));
  }
  return all;
}

function drawChunk(
  pools: readonly PreparedPool[],
  stream: RandomStream,
  { deviations, standardErrors }: Replicates,
  from: number,
  to: number,
): void {
  const sums: PoolSums = { excess: 0, size: 0, squares: 0 };
  for (let draw = from; draw < to; draw++) {
    let deviation = 0;
    let variance = 0;
    for (const pool of pools) {
      drawPool(pool, stream, sums);
      deviation += pool.factor * (sums.excess / sums.size);
      variance += pool.factor ** 2 * (sums.squares / sums.size ** 2);
    }
    deviations[draw] = deviation;
    standardErrors[draw] = Math.sqrt(variance);
  }
}

/** The standard error of the data: between clusters, each pool's variance with divisor n - 1 clusters. */
export function standardErrorOf(pools: readonly ClusterPool[]): number {
  let variance = 0;
  for (const { factor, excess, size } of pools) {
    const all = size.reduce((sum, one) => sum + one, 0);
    const squares = excess.reduce((sum, one) => sum + one * one, 0);
    variance += (factor / all) ** 2 * squares * (size.length / (size.length - 1));
  }
  return Math.sqrt(variance);
}

interface PreparedPool {
  readonly factor: number;
  readonly excess: Float64Array;
  readonly size: Float64Array;
  /** Scatter too small to be distinguished from rounding. */
  readonly negligible: number;
}

interface PoolSums {
  excess: number;
  size: number;
  /** Squared distances of the drawn clusters from the mean they make, times n / (n - 1). */
  squares: number;
}

function prepare({ factor, excess, size }: ClusterPool): PreparedPool {
  const squares = excess.reduce((sum, one) => sum + one * one, 0);
  return { factor, excess, size, negligible: 1e-24 * squares };
}

function drawPool({ excess, size, negligible }: PreparedPool, stream: RandomStream, sums: PoolSums): void {
  const n = excess.length;
  let sumOfExcess = 0;
  let sumOfSize = 0;
  let excessSquared = 0;
  let excessTimesSize = 0;
  let sizeSquared = 0;
  for (let drawn = 0; drawn < n; drawn++) {
    const at = integerBelow(stream, n);
    const one = excess[at] as number;
    const weight = size[at] as number;
    sumOfExcess += one;
    sumOfSize += weight;
    excessSquared += one * one;
    excessTimesSize += one * weight;
    sizeSquared += weight * weight;
  }
  const shift = sumOfExcess / sumOfSize;
  const squares = excessSquared - 2 * shift * excessTimesSize + shift * shift * sizeSquared;
  sums.excess = sumOfExcess;
  sums.size = sumOfSize;
  // One cluster drawn n times leaves only rounding.
  sums.squares = squares > Math.max(negligible, 1e-14 * excessSquared) ? squares * (n / (n - 1)) : 0;
}
