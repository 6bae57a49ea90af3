import { Worker } from 'node:worker_threads';
import type { ClusterPool } from './bootstrap-sample.js';
import { chunkSize, type Replicates } from './replicates.js';

/** What one worker is told: to draw every `step`-th chunk from the `first` on into memory that all share. */
export interface WorkerJob {
  readonly pools: readonly ClusterPool[];
  readonly seed: number;
  readonly all: Replicates;
  readonly first: number;
  readonly step: number;
}

/**
 * All draws, their chunks dealt out to worker threads. Because each chunk has its own random stream and its own place, the
 * answer does not depend on the number of threads.
 *
 * @param worker the compiled `bootstrap-worker`
 */
export async function parallelReplicates(
  pools: readonly ClusterPool[],
  seed: number,
  draws: number,
  threads: number,
  worker: URL,
): Promise<Replicates> {
  const all = { deviations: sharedNumbers(draws), standardErrors: sharedNumbers(draws) };
  const step = Math.min(threads, Math.ceil(draws / chunkSize));
  const jobs = Array.from({ length: step }, (_, first): WorkerJob => ({ pools, seed, all, first, step }));
  await Promise.all(jobs.map((job) => done(worker, job)));
  return all;
}

function sharedNumbers(count: number): Float64Array {
  return new Float64Array(new SharedArrayBuffer(count * Float64Array.BYTES_PER_ELEMENT));
}

function done(worker: URL, job: WorkerJob): Promise<unknown> {
  return new Promise((resolve, reject) => {
    const thread = new Worker(worker, { workerData: job });
    thread.once('exit', resolve);
    thread.once('error', reject);
  });
}
