import { integerBelow } from '../../random/integer-below.js';
import { type RandomStream, randomStream } from '../../random/random-stream.js';
import type { ClusterPool } from './bootstrap-sample.js';

/** Estimates of the samples drawn, each less the estimate of the data, and their standard errors. */
export interface Replicates {
  readonly deviations: Float64Array;
  readonly standardErrors: Float64Array;
}

/** So many draws belong to one random stream: chunk k always draws from stream k, whoever computes it. */
export const chunkSize = 1000;

/** The draws of one chunk. */
export function replicateChunk(pools: readonly ClusterPool[], seed: number, chunk: number, draws: number): Replicates {
  const stream = randomStream(seed, chunk);
  const prepared = pools.map(prepare);
  const deviations = new Float64Array(draws);
  const standardErrors = new Float64Array(draws);
  const sums: PoolSums = { excess: 0, size: 0, squares: 0 };
  for (let draw = 0; draw < draws; draw++) {
    let deviation = 0;
    let variance = 0;
    for (const pool of prepared) {
      drawPool(pool, stream, sums);
      deviation += pool.factor * (sums.excess / sums.size);
      variance += pool.factor ** 2 * (sums.squares / sums.size ** 2);
    }
    deviations[draw] = deviation;
    standardErrors[draw] = Math.sqrt(variance);
  }
  return { deviations, standardErrors };
}

/** All draws, chunk after chunk. */
export function allReplicates(pools: readonly ClusterPool[], seed: number, draws: number): Replicates {
  return joined(chunksOf(draws).map(({ chunk, size }) => replicateChunk(pools, seed, chunk, size)));
}

export function chunksOf(draws: number): { readonly chunk: number; readonly size: number }[] {
  return Array.from({ length: Math.ceil(draws / chunkSize) }, (_, chunk) => ({
    chunk,
    size: Math.min(chunkSize, draws - chunk * chunkSize),
  }));
}

/** Chunks put together in their order. */
export function joined(chunks: readonly Replicates[]): Replicates {
  const draws = chunks.reduce((sum, { deviations }) => sum + deviations.length, 0);
  const all = { deviations: new Float64Array(draws), standardErrors: new Float64Array(draws) };
  let at = 0;
  for (const { deviations, standardErrors } of chunks) {
    all.deviations.set(deviations, at);
    all.standardErrors.set(standardErrors, at);
    at += deviations.length;
  }
  return all;
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
  /** Scatter too small to be told from rounding. */
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
