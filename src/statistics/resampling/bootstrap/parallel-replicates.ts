import { Worker } from 'node:worker_threads';
import type { ClusterPool } from './bootstrap-sample.js';
import { chunksOf, joined, type Replicates } from './replicates.js';

/** What one worker is told. */
export interface WorkerJob {
  readonly pools: readonly ClusterPool[];
  readonly seed: number;
  readonly chunks: readonly { readonly chunk: number; readonly size: number }[];
}

interface DrawnChunk {
  readonly chunk: number;
  readonly replicates: Replicates;
}

/**
 * All draws, their chunks dealt out to worker threads. Because each chunk has its own random stream and they are joined in
 * order, the answer does not depend on the number of threads.
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
  const chunks = chunksOf(draws);
  const hands = Array.from({ length: Math.min(threads, chunks.length) }, (_, hand) => {
    return chunks.filter((_chunk, at) => at % threads === hand);
  });
  const drawn = await Promise.all(hands.map((hand) => handled(worker, { pools, seed, chunks: hand })));
  return joined(
    drawn
      .flat()
      .sort((one, other) => one.chunk - other.chunk)
      .map(({ replicates }) => replicates),
  );
}

function handled(worker: URL, job: WorkerJob): Promise<readonly DrawnChunk[]> {
  return new Promise((resolve, reject) => {
    const thread = new Worker(worker, { workerData: job });
    thread.once('message', resolve);
    thread.once('error', reject);
  });
}
