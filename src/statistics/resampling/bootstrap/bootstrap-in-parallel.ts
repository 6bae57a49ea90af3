import { availableParallelism } from 'node:os';
import { StatisticsError } from '../../statistics-error.js';
import { type BootstrapOptions, type BootstrapResult, checkOptions, summarised } from './bootstrap.js';
import { type BootstrapSample, clusterPools } from './bootstrap-sample.js';
import { parallelReplicates } from './parallel-replicates.js';

export interface ParallelBootstrapOptions extends BootstrapOptions {
  /** How many worker threads; as many as the machine offers unless told. */
  readonly threads?: number;
}

/**
 * `bootstrap` over worker threads: the same answer, to the last bit, whatever their number, and the same as without them. Worth
 * it from about a million draws; below, starting the threads takes longer than drawing.
 *
 * @throws StatisticsError as `bootstrap`, by rejecting; `out-of-range` for the number of threads
 * @example
 * const sample = { kind: 'two-groups', treated: [[-3.1], [-1.8], [-2.6], [-2.2]], untreated: [[-1.2], [-2.0], [-0.6], [-1.4]] };
 * (await bootstrapInParallel(sample, { seed: 1, draws: 999_999, threads: 2 })).estimate // -1.125
 */
export async function bootstrapInParallel(
  sample: BootstrapSample,
  options: ParallelBootstrapOptions,
): Promise<BootstrapResult> {
  const { seed, draws = 9_999, weighing = 'clusters', threads = availableParallelism() } = options;
  checkOptions(options);
  if (!Number.isSafeInteger(threads) || threads < 1) {
    throw new StatisticsError('bootstrapInParallel', 'out-of-range', `needs at least 1 thread, got ${threads}`);
  }
  const pools = clusterPools('bootstrapInParallel', sample, weighing);
  const worker = new URL('./bootstrap-worker.js', import.meta.url);
  return summarised(sample, pools, await parallelReplicates(pools, seed, draws, threads, worker), options);
}
